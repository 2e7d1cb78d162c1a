import pytest
from argon2 import PasswordHasher, extract_parameters
from argon2.exceptions import VerifyMismatchError

from app.services.errors import Invalid
from app.services.logins import free_login, plain_login
from app.services.passwords import CODE_LETTERS, Argon2, check_password, hash_of_code, new_code


def test_argon2id_has_the_strength_we_say() -> None:
    """Source: OWASP Password Storage Cheat Sheet (Argon2id: m = 19 MiB, t = 2, p = 1), from memory."""
    kept = Argon2().hash("seven quiet compasses")
    assert kept.startswith("$argon2id$v=19$m=19456,t=2,p=1$")
    assert Argon2().fits(kept, "seven quiet compasses")
    assert not Argon2().fits(kept, "seven quiet compasse")
    assert not Argon2().fits("no hash at all", "seven quiet compasses")


def test_nobodys_hash_takes_the_same_work_and_is_of_no_password() -> None:
    kept, nobodys = Argon2().hash("seven quiet compasses"), Argon2().nobodys()
    assert extract_parameters(nobodys) == extract_parameters(kept)
    assert not Argon2().fits(nobodys, "")
    with pytest.raises(VerifyMismatchError):  # compared to the end, and not refused for its form
        PasswordHasher().verify(nobodys, "seven quiet compasses")


@pytest.mark.parametrize(
    "password", ["correct mule sextant", "été à la ferme", "日本語日本語かなカナ漢字", "a" * 8 + "bcdefgh"]
)
def test_any_letters_and_spaces_will_do(password: str) -> None:
    check_password(password, "alice", "en")


@pytest.mark.parametrize("password", ["alice1234567", "Password1234", "123456789012", "aaaabbbbcccc", "alicealice12"])
def test_what_is_easily_guessed_will_not(password: str) -> None:
    with pytest.raises(Invalid, match="guessed"):
        check_password(password, "alice", "en")


def test_codes_are_random_and_read_as_people_type_them() -> None:
    codes = {new_code() for _ in range(200)}
    assert len(codes) == 200
    assert set("".join(codes)) <= {*CODE_LETTERS, "-"}
    code = codes.pop()
    assert hash_of_code(code) == hash_of_code(f" {code.lower().replace('-', ' ')} ")


@pytest.mark.parametrize(
    ("name", "login"),
    [
        ("Alice Roy", "alice.roy"),
        ("  José   Núñez-Roy ", "jose.nunez-roy"),
        ("Zoë O'Brien", "zoe.obrien"),
        ("Jürgen Groß", "jurgen.gross"),
        ("Øyvind Ækre", "oyvind.aekre"),
        ("山田太郎", "student"),
        ("-- ??", "student"),
        ("a" * 99, "a" * 40),
    ],
)
def test_logins_are_plain(name: str, login: str) -> None:
    assert plain_login(name) == login


def test_logins_are_free() -> None:
    assert free_login("Alice Roy", {"alice.roy", "alice.roy2"}) == "alice.roy3"
