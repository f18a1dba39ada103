"""What people say of a dryer, line by line."""

from __future__ import annotations

import pytest

from halfsplit.call.phrases import hear

# Words => what is said outright, in order: concept and level, @ the state it is said of, and whether it comes and goes.
SAID = """
it won't heat => heats none
no heat => heats none
no heat at all but drum spins => heats none, turns normal
drum turns but no heat => turns normal, heats none
drum goes round but there's no heat => turns normal, heats none
The dryer runs but doesn't get hot => runs normal, heats none
dryer isnt getting warm => heats none
it no longer heats => heats none
It's not heating up any more => heats none
heats fine but drum won't turn => heats normal, turns none
drum not turning => turns none
drum doesn't spin but I can hear the motor running => turns none, motor runs normal
motor runs but the drum does not move => motor runs normal, turns none
it just hums => hums normal
hums and won't start => hums normal, starts none
buzzing noise but it doesn't turn => hums normal, turns none
takes two cycles to dry => dries weak
takes 3 hours to dry => dries weak
takes forever to dry a load => dries weak
clothes still damp after a full cycle => dries weak
clothes come out wet => dries weak
towels are still damp => dries weak
it takes ages to dry => dries weak
not drying properly => dries weak
doesn't dry the clothes => dries weak
drying slowly => dries weak
completely dead => power none
it's dead as a doornail => power none
no power at all => power none
won't turn on => power none
nothing happens when I press start => power none
nothing happens => power none
doesn't do anything => power none
no sign of life => power none
won't start => starts none
will not start but the light comes on => starts none, lights normal
lights come on but won't start => lights normal, starts none
light works, drum doesn't turn => lights normal, turns none
sometimes it won't start => starts none sometimes
starts sometimes => starts normal sometimes
heats intermittently => heats normal sometimes
only heats sometimes => heats normal sometimes
stops heating after ten minutes => heats none later
it heats for 5 minutes then stops => heats normal later, stops midway normal
stops after 10 minutes => stops midway normal later
shuts off mid cycle => stops midway normal later
keeps shutting off => stops midway normal
cuts out after a while => stops midway normal later
turns off by itself after a few minutes => stops midway normal later
trips the breaker => trips normal
breaker trips as soon as I start it => trips normal
it blew the fuse => trips normal
tripping the electrics => trips normal
pops the breaker when heating => trips normal
keeps tripping the breaker => trips normal
clothes are too hot => overheats normal
gets way too hot => overheats normal
burning my clothes => overheats normal
overheating => overheats normal
doesn't heat on delicate => heats none @delicate
no heat on low but high works => heats none @delicate
it won't stop => runs on normal
never stops => runs on normal
keeps running, won't shut off => runs normal, runs on normal
runs forever => runs on normal
timer doesn't move => timer none
timer stuck => timer none
the dial does not advance => timer none
auto dry never ends => ends none @auto
runs with the door open => runs normal @door open
drum keeps turning when I open the door => turns normal @door open
drum light is out => lights none
light bulb burned out => lights none
the light stays on with the door closed => lights normal @door shut
door won't close => door none
door won't latch => door none
door won't stay shut => door none
smells like burning => smells normal
burning smell => smells normal
there is smoke coming out => smokes normal
sparks inside the drum => sparks normal
I got a shock from it => shocks normal
I smell gas => gas normal
squeaking noise => noisy normal
makes a loud grinding noise => noisy normal
very noisy => noisy normal
thumping sound when it turns => noisy normal
shaking like crazy => shakes normal
it heets but does'nt turn => heats normal, turns none
drum isnt turnning => turns none
not heatign => heats none
the dryer stoped heating => heats none
stopped heating up => heats none
quit heating => heats none
barely warm => heats weak
only gets lukewarm => heats weak
doesn't get hot enough => heats weak
not very hot => heats weak
heat is weak => heats weak
heats a bit => heats weak
low heat => heats weak
only blows cold air => heats none
blowing cold air => heats none
air coming out of the vent is weak => blows weak
no air from the vent => blows none
weak airflow => blows weak
vent is clogged => vent clear none
drum turns slowly => turns weak
has to be pushed by hand to start => starts weak
drum only turns while I hold the start button => turns normal @held, turns none
starts by itself => starts normal @by itself
drum starts turning on its own => turns normal @by itself
doesn't heat or turn => heats none, turns none
neither heats nor turns => heats none, turns none
drum turns and heats but stops early => turns normal, heats normal, stops midway normal
everything works except the light => works normal, lights none
works fine but the light is out => works normal, lights none
turns fine, heats fine, but never ends => turns normal, heats normal, ends none
hot when off => heats normal @off
stays warm when it's off => heats normal @off
i think it does not heat => heats none unsure
maybe it isn't heating => heats none unsure
doesn't always start => starts normal sometimes
drum does not spin and no heat => turns none, heats none
error code on display => error code normal
showing e5 error => error code normal
display is blank => display none
buttons don't respond => buttons none
"""


def said(text: str) -> str:
    """What is said outright, as written in the table."""
    found = []
    for phrase in hear(text, {}).phrases:
        one = phrase.said
        if not one.implied:
            words = (one.concept, one.level, one.where and f"@{one.where}", one.hedge)
            found.append(" ".join(word for word in words if word))
    return ", ".join(dict.fromkeys(found))


@pytest.mark.parametrize("line", SAID.strip().splitlines())
def test_what_people_say_of_a_dryer_is_heard(line: str) -> None:
    words, _, expected = line.partition(" => ")
    assert said(words) == expected
