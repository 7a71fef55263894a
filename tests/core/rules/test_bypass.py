"""A text that tells somebody to get round a guard is found; tools, shapes and warnings are not."""

from __future__ import annotations

import pytest

from recipes_core.rules.bypass import bypass_told

TOLD = (
    "bypass the interlock",
    "Defeat the sensors of the lid.",
    "tape down the safety switch",
    "Wedge a stick into the interlock to see better",
    "Bridge the thermostat if it cuts out.",
    "disable the cut-out",
    "override the limiter",
    "put a magnet on the lid switch",
    "Hold in the door switch while you feed it.",
    "hold the interlock closed with a clamp",
    "Run it with the interlock bypassed.",
    "the thermal fuse is bridged",
    "Remove the guard so that long pieces fit.",
    "take off the hopper guard",
    "run it, the guard is removed for long pieces",
    "Never open the lid, tape the switch instead",
    "It is slow; jumper the\ninterlock",
    "- never reach in\n- bridge the switch",
    "No gloves, and bypass the interlock",
    "The lid switch is a nuisance: wedge it in with tape",
    "The lid switch is fussy: tape the magnet over it",
)
QUIET = (
    "",
    "Never bypass the interlock.",
    "never tape, wedge or bridge the interlock",
    "Do not bridge the thermostat",
    "Don’t defeat the sensor",
    "nobody bypasses a guard here",
    "works without bypassing the interlock",
    "no guard is removed, no interlock bypassed",
    "if the interlock is bypassed, stop",
    "Tape the liner.",
    "tape the liner, and check the switch",
    "a bridge of flake over the hopper",
    "Bridge the gap with parchment and switch the oven off",
    "remove the flake, guard fitted",
    "Switch it off before you remove the jam",
    "Use the switch to stop it, then remove the flake",
    "hold the switch until it runs",
    "remove the cut-out from the sheet",
    "clear a jam with the guard shut",
    "the flake bridges in the hopper: switch off, use the stick",
    "Unplug it, then remove the guard to clean it.",
    "With the plug out and the rotor dead, take off the guard",
    "the interlock is not bypassed",
    "Never\nbypass the interlock",
    "guard the tape from heat",
    "pipe, jumper and magnet lie beside the press",
    "The lid switch is a nuisance, but never tape it",
    "the bag is light: tape it to the outlet",
)


@pytest.mark.parametrize("text", TOLD)
def test_a_way_round_is_found(text: str) -> None:
    """In the author's words, so that he finds it again."""
    told = bypass_told(text)
    assert told
    assert told in " ".join(text.split())


@pytest.mark.parametrize("text", QUIET)
def test_a_warning_or_a_lone_word_is_quiet(text: str) -> None:
    """One word never counts, a negated clause does not, and cleaning an unplugged machine is allowed."""
    assert bypass_told(text) == ""
