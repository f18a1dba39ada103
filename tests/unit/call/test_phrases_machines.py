"""What people say of washers, refrigerators, ovens, dishwashers and hoods, and whole stories of dryers."""

from __future__ import annotations

import pytest

from halfsplit.call.phrases import hear

# Words => what is said outright, in order: concept and level, @ the state it is said of, and whether it comes and goes.
SAID = """
washer won't drain => drains none
the washing machine does not drain, there is water left in the drum => drains none
water stays in the bottom => drains none
it fills but doesn't spin => fills normal, spins none
doesn't spin out the clothes => spins none
clothes come out soaking wet => drains none
won't fill with water => fills none
no water coming in => fills none
water doesn't come in => fills none
it leaks from the bottom => leaks normal
water all over the kitchen floor => leaks normal
leaking water underneath => leaks normal
puddle of water on the floor => leaks normal
lid won't lock => door none
door won't open after cycle => door none
washes fine but will not spin => cleans normal, spins none
drum turns only one way => turns weak
vibrates badly during the spin cycle => shakes normal
machine walks across the floor => shakes normal
makes a horrible noise when spinning => noisy normal
stops mid cycle with water in it => stops midway normal
stuck on rinse => stops midway normal
fridge not cooling => cools none
freezer is icing up => ices over normal
freezer doesn't freeze => cools none
not cold enough => cools weak
too cold, freezes the milk => cools too much
runs all the time => runs on normal
compressor runs constantly => runs on normal
fridge light doesn't work => lights none
water leaking inside the fridge => leaks normal
ice maker doesn't make ice => dispenses none
there's frost building up at the back => ices over normal
fridge makes a humming noise => hums normal
microwave doesn't heat food => heats none
runs but food stays cold => runs normal, heats none
turntable doesn't turn => plate turns none
plate does not rotate => plate turns none
light comes on, plate turns but doesn't heat => lights normal, plate turns normal, heats none
sparking inside => sparks normal
sparks and smells of burning => sparks normal, smells normal
buttons don't work => buttons none
keypad is unresponsive => buttons none
display doesn't light up => display none
door doesn't close properly => door weak
microwave blows fuse when door is closed => trips normal @door shut
starts when the door is closed => starts normal @door shut
keeps running when the door is open => runs normal @door open
fan runs but no heat => blows normal, heats none
oven doesn't heat up => heats none
oven won't get hot => heats none
oven not reaching temperature => heats none
oven takes forever to heat up => heats weak
oven heats too much, burns everything => overheats normal
bake element doesn't come on => bake heats none
broil works but bake doesn't => broil heats normal, bake heats none
one of the burners doesn't work => burner heats none
rear left ring does not heat => burner heats none
burner won't light => ignites none
gas doesn't ignite => ignites none
clicks but won't light => ignites none
oven door won't close => door none
clock is blank => display none
control panel dead => buttons none
oven trips the rcd => trips normal
oven trips the electricity after 10 minutes => trips normal later
dishwasher doesn't clean => cleans none
dishes come out dirty => cleans weak
glasses are cloudy => cleans weak
dishes don't get dry => dries none
dishwasher does not fill => fills none
does not drain, standing water in the bottom => drains none
spray arm doesn't turn => sprays none
detergent doesn't dissolve => dispenses none
soap dispenser doesn't open => dispenses none
dishwasher beeps and stops => stops midway normal
lights flashing => error code normal
all the lights are flashing and it won't start => error code normal, starts none
hood fan doesn't work => blows none
extractor doesn't suck => blows none
no suction => blows none
fan is very noisy => noisy normal
only the light works => lights normal
light works but fan doesn't => lights normal, blows none
it shows error code F21 => error code normal
not working => works none
doesn't work => works none
broken => works none
stopped working last week => works none
used to heat but not any more => heats none
keeps blowing fuses => trips normal
I replaced the heating element but still no heat => heats none
it was making a noise and then it stopped => noisy normal, works none
it made a loud bang and now it is dead => noisy normal, power none
flames from the back => smokes normal
water won't get hot => heats none
the motor hums but won't turn => hums normal, turns none
the pump is running but it doesn't drain => pump runs normal, drains none
pump doesn't run => pump runs none
packed up => works none
conked out last night => works none
tripping out the electrics => trips normal
does not come on => power none
no lights => lights none
makes noise but won't spin => noisy normal, spins none
turns on but no heat => power normal, heats none
will turn on but won't start => power normal, starts none
display shows E4 => error code normal
motor runs, no tumble => motor runs normal, turns none
leaking door => leaks normal
door handle broken => door none
overheats and cuts out => overheats normal, stops midway normal
light flickers => lights weak
no hot water => heats none
clothes stay wet => dries weak
everything works but not the light => works normal, lights none
heat only comes on sometimes => heats normal sometimes
it will heat but only on high => heats normal, heats normal @high
only heats on high => heats normal @high
dryer is on the fritz => works none
it wont heat up on cottons => heats none @high
there is no heat, drum is turning ok => heats none, turns normal
Drum turning but not heating!!! => turns normal, heats none
not turning/no heat => turns none, heats none
spins, no heat => spins normal, heats none
heating not working => heats none
runs, gets hot, but takes 2-3 cycles to dry => runs normal, heats normal, dries weak
hot but not drying => heats normal, dries weak
is not drying the clothes, they're still damp after 2 cycles => dries weak
takes twice as long to dry => dries weak
why does it not heat? => heats none
it doesn't leak => leaks none
no smoke, no smell => smokes none, smells none
heats slower than before => heats weak
it smells of hot rubber and the drum doesn't turn => smells normal, turns none
does not turn and heat => turns none
doesn't turn and hums => turns none, hums normal
no problem with heat => heats normal
hardly any heat => heats weak
not only does it not heat, it does not turn => heats none, turns none
heats too slowly => heats weak
takes long => dries weak
When I press the start button it just hums for a few seconds and then nothing. => hums normal later
Every time we use it the breaker goes after about ten minutes. => trips normal later
My dryer will not turn on unless I hold the door shut. => power none sometimes
The timer is stuck on 40 minutes, it just keeps going and going => timer none
It runs but it doesn't seem to get hot like it used to => runs normal, heats none
The dryer heats sometimes and other times it is stone cold => heats normal sometimes
dries ok on high but on delicate the clothes come out damp => dries normal @high, dries weak @delicate
The drum light stays on even when the door is shut => lights normal @door shut
we replaced the belt last year and now the drum isn't moving again => turns none
there's a burning smell coming from the back and it doesn't get hot => smells normal, heats none
Won't start, just clicks. => starts none
I hear a click when I press start but the drum does not turn => turns none
the machine fills with water but then stops and beeps => fills normal, stops midway normal
washing machine gets stuck on the spin cycle and does not drain the water out => stops midway normal, drains none
The freezer is working but the fridge section is warm => works normal
The oven light comes on and the fan works but it will not heat up => lights normal, blows normal, heats none
microwave sparks when I heat something and there is a burnt smell => sparks normal
It keeps tripping the electricity whenever I turn on the oven => trips normal
dishwasher leaves the dishes dirty and doesn't drain properly => cleans weak, drains weak
Hood fan makes lots of noise and barely sucks any air => noisy normal, blows weak
the display is on but none of the buttons do anything => buttons none
fridge runs constantly and ice is forming at the back wall => runs on normal
not spinning properly, clothes are dripping wet => spins weak, drains none
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
def test_what_people_say_of_other_machines_is_heard(line: str) -> None:
    words, _, expected = line.partition(" => ")
    assert said(words) == expected
