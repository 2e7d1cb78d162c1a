"""The bench's stills and plots: figures called with a flight's numbers, those that can be drawn."""

from collections.abc import Sequence

from app.figures import check_figure, draw_figure
from app.figures.model import Drawing, FigureCall
from app.packs.spec import Language
from app.physics.angles import round_half_up, shown
from app.services.bench import Flight, Moment

MOST_SAMPLES = 160


def draw_stills(flight: Flight, moment: Moment, language: Language) -> Sequence[Drawing]:
    """Draw face, heading indicator, tilted card and card plane at a moment, and the whole turn from above.

    Above the critical bank no card hangs steady: what would show one is drawn level, for the page to hide.
    """
    bank_deg = round_half_up(moment.bank_deg, 1) if flight.steady_at(moment) else 0.0
    real = shown(moment.real_deg)
    calls = [
        FigureCall("drum", {"reading_deg": shown(moment.reading_deg)}),
        FigureCall("heading-indicator", {"indicator_deg": real}),
    ]
    if flight.wish.tilts_fore_and_aft:
        # Seen from the left the forward edge is on the left: it sinks, as in a left bank, when the speed grows.
        tilt = {"bank_deg": round_half_up(-moment.sunk_deg, 1), "view": "left"}
    else:
        tilt = {"bank_deg": bank_deg}
    calls += [
        FigureCall("tilted-card", {"dip_deg": flight.field.dip_deg, **tilt}),
        FigureCall("apparent-vertical", tilt),
    ]
    if not flight.wish.tilts_fore_and_aft and flight.steady_at(moment):
        plane = {"dip_deg": flight.field.dip_deg, "bank_deg": bank_deg, "heading_deg": real}
        calls.append(FigureCall("card-plane", plane))
    if flight.wish.doing == "turn" and flight.steady:
        ends = {"start_deg": flight.wish.start_deg, "target_deg": flight.wish.target_deg, "turn": flight.wish.turn}
        ties = {"dip_deg": flight.field.dip_deg, "bank_deg": flight.bank_deg, "show_readings": True}
        calls.append(FigureCall("turn-from-above", {**ends, **ties}))
    return [draw_figure(call, language) for call in calls if not check_figure(call)]


def draw_plots(flight: Flight, at_s: float | None, language: Language) -> Sequence[Drawing]:
    """Draw the headings against time, wide and narrow; a page shows the one that fits."""
    motion = flight.motion
    if motion is None:
        return ()
    step = -(-len(motion.time_s) // MOST_SAMPLES)
    kept = [*range(0, len(motion.time_s) - 1, step), len(motion.time_s) - 1]
    columns = ("real_deg", "reading_deg", *(("settled_deg",) if flight.steady else ()))
    lines = {name: [getattr(motion, name)[at] for at in kept] for name in columns}
    events = {"full-bank": flight.full_bank_s, "roll-out": flight.rollout_s}
    call = FigureCall(
        "time-plot",
        {
            "times_s": [motion.time_s[at] for at in kept],
            **lines,
            "at_s": at_s,
            "events": [{"seconds": s, "name": name} for name, s in events.items() if s is not None],
            "cues": [
                {"seconds": cue.at_s, "number": number}
                for number, cue in enumerate(flight.cues, start=1)
                if cue.at_s is not None and flight.rollout_s is not None and cue.at_s <= flight.rollout_s + 0.1
            ],
        },
    )
    return [draw_figure(call.with_parameters(width=width), language) for width in ("wide", "narrow")]
