"""Every sentence the decision can say, whole, by key.

No fragment is glued to another: what varies stands in named fields, and what varies in
grammar has a key of its own. A sentence never claims more than the look did. A reason
says one idea a line: a break in its template ends a line.
"""

from __future__ import annotations

from growdesk.domain.speech import Phrases, mark

VERDICTS: Phrases[tuple[str, str]] = Phrases(
    {
        ("feed", "through"): "Feed.",
        ("feed", "if-dry"): "Feed, if the pot is light.",
        ("feed", "sparing"): "Feed, sparingly.",
        ("feed", "none"): "Feed with the next water it gets.",
        ("flush", "through"): "Flush: clear water in quantity.",
        ("flush", "if-dry"): "Flush with clear water, if the pot is light.",
        ("flush", "sparing"): "Flush with a little clear water.",
        ("flush", "none"): "Flush with the next water it gets.",
        ("clear-water", "through"): "Clear water, right through the pot.",
        ("clear-water", "if-dry"): "Clear water, if the pot is light.",
        ("clear-water", "sparing"): "Clear water, sparingly.",
        ("clear-water", "none"): "Clear water, but none today.",
        ("keep-dry", "none"): "Keep dry.",
        ("keep-dry", "sparing"): "Keep dry but for a mouthful of clear water.",
        (
            "keep-dry",
            "if-dry",
        ): "Keep dry; a little clear water only if the pot is light.",
        ("keep-dry", "through"): "Keep dry after this one watering.",
        ("look-first", "none"): "Look at it first.",
        ("look-first", "sparing"): "Look at it first.",
        ("look-first", "if-dry"): "Look at it first.",
        ("look-first", "through"): "Look at it first.",
    }
)

REASONS: Phrases[str] = Phrases(
    {
        "overruled": "You overruled this, until {until}: {why}",
        "otherwise-same": "Without the overrule it would get the same.",
        "otherwise-feed-through": "Without the overrule it would be fed.",
        "otherwise-flush-through": "Without the overrule it would be flushed.",
        "otherwise-clear-water-through": "Without the overrule it would get clear "
        "water right through.",
        "otherwise-clear-water-if-dry": "Without the overrule it would get clear "
        "water, only if the pot is light.",
        "otherwise-clear-water-sparing": "Without the overrule it would get clear "
        "water, sparingly.",
        "otherwise-keep-dry-none": "Without the overrule it would be kept dry.",
        "otherwise-look-first-none": "Without the overrule it would be looked at "
        "first, and stay dry until then.",
        "otherwise-look-first-sparing": "Without the overrule it would be looked at "
        "first, and get a little clear water at most until then.",
        "otherwise-look-first-if-dry": "Without the overrule it would be looked at "
        "first, with clear water until then, only if "
        "the pot is light.",
        # leafless rest
        "bare": "It was bare on {seen} and at rest.\n"
        "Water returns when its new roots reach {resume_mm}.",
        "bare-roots-unknown": "It was bare on {seen}.\n"
        "Its new roots are not on record.\n"
        "Look for them and measure the longest: water returns at {resume_mm}.",
        "bare-roots-short": "It was bare on {seen}, with roots of {root_mm}.\n"
        "It is watered when they reach {resume_mm}.",
        "roots-short-leaves-not-recorded": "Its longest new root was {root_mm} on "
        "{seen}; it is watered when the roots "
        "reach {resume_mm}.\nNo leaf is on record "
        "as out.",
        "bare-not-measured": "It was bare on {seen} and has begun to move.\n"
        "The length of its new roots is not on record.\n"
        "Measure the longest: water returns at {resume_mm}.",
        "not-measured-leaves-not-recorded": "It had begun to move on {seen}.\n"
        "Neither a leaf nor the length of its new roots is on record.\n"
        "Measure the longest: water returns at {resume_mm}.",
        "leaves-not-recorded": "This kind stays dry until its new roots reach "
        "{resume_mm}.\n"
        "The look of {seen} does not say whether a leaf is out.\n"
        "Look for a leaf and measure the longest new root.",
        "leaf-roots-short": "A leaf is out, but its longest new root was {root_mm} on "
        "{seen}.\n"
        "Until midsummer it waits for {resume_mm}.",
        "leaf-no-roots": "A leaf is out, but on {seen} no root tips were running yet.\n"
        "Until midsummer it waits for them to run, or to measure {resume_mm}.",
        "waking-not-rooted": "It had begun to move on {seen}, with roots of "
        "{root_mm}.\nIt is fed once they reach {rooted_mm} or a "
        "leaf unfolds.",
        "waking-not-measured": "It had begun to move on {seen}.\n"
        "The length of its new roots is not on record.\n"
        "Measure them: it is fed from {rooted_mm} on, or once a leaf unfolds.",
        "waking-maturing": "A growth was maturing on {seen}.\nNeither an open leaf "
        "nor roots of {rooted_mm} are on record; with either it "
        "is fed.",
        "waking-look-old": "That look is {days} old, so look at the roots today.\n"
        "Until then no more than that.",
        "measure-again": "That measure is {days} old, so measure the longest new root "
        "again.",
        "leaves-not-recorded-until-growth": "This kind stays dry until a new growth or "
        "new roots show, and on {seen} none did.\n"
        "That look does not say whether a leaf is out.",
        "bare-until-growth": "It was bare on {seen}, and nothing new is on record.\n"
        "Water returns with a new growth or new roots.",
        "dry-hold-look-old": "That look is {days} old, so look at the roots today.\n"
        "Until then no water.",
        # end of their season
        "going-down-yellowing": "Its growth is finishing and the leaves were yellowing "
        "on {seen}; it is going down to its rest.",
        "going-down-dropping": "Its growth is finishing and the leaves were dropping "
        "on {seen}; it is going down to its rest.",
        "still-green": "It is past {latest} and the look of {seen} shows "
        "nothing new on the move.\nIt is time it rested.",
        "still-green-maturing": "It is past {latest} and the look of {seen} shows its "
        "growth maturing and no new one.\n"
        "It is time it rested.",
        "still-green-tips": "It is past {latest} and the look of {seen} shows root "
        "tips on the move but no new growth.\nIt is time it "
        "rested.",
        "still-green-maturing-tips": "It is past {latest}: on {seen} its growth was "
        "maturing, root tips moved and no new growth showed.\n"
        "It is time it rested.",
        # the look itself
        "never-looked": "No look is on record for it.",
        "look-old": "It was last looked at on {seen}, {days} ago.",
        "would-have-said-feed": "By the look of {seen} it would be fed.",
        "would-have-said-flush": "By the look of {seen} it would be flushed.",
        "would-have-said-clear-water": "By the look of {seen} it would get clear "
        "water.",
        "would-have-said-keep-dry": "By the look of {seen} it would stay dry.",
        "would-have-said-look-first": "The look of {seen} settles nothing.",
        "may-be-bare": "By now it may stand bare, and a bare pot is always light.",
        "until-looked-none": "Until it is looked at, no water.",
        "until-looked-sparing": "Until it is looked at, a little clear water at most.",
        "until-looked-if-dry": "Until it is looked at, clear water, and only if the "
        "pot is light.",
        # trouble
        "rot": "Rot was seen on {seen}.",
        "rot-what-to-do": "Cut back to clean tissue; keep it dry, warm and in moving "
        "air.\n"
        "Stand it apart and handle it last.",
        "no-live-roots": "It had no live roots on {seen}.\n"
        "Feed cannot help a plant that cannot drink.",
        "badly-shrivelled": "It was badly shrivelled on {seen}, though its roots "
        "live.\nIt needs water before it needs feed.",
        "shrivelled-roots-unknown": "It was badly shrivelled on {seen}.\n"
        "Whether its roots live is not known.\n"
        "Look at the roots before it gets more.",
        "pests": "Pests were seen on {seen}.\nIt stands apart and is handled last.",
        "virus": "A virus was suspected on {seen}.\nIt stands apart and is handled "
        "last.",
        "newcomer": "It is new here and stands apart until {until}, handled after the "
        "others.",
        "pests-and-virus": "Pests were seen and a virus was suspected on {seen}.\n"
        "It stands apart and is handled last.",
        # temperature
        "too-cold": "Its place has averaged {mean_c} over the last {days}.\n"
        "At {limit_c} or less its roots leave the feed in the pot.",
        "too-cold-some": "Its place averaged {mean_c} over {read} of the last {of}.\n"
        "At {limit_c} or less its roots leave the feed in the pot.",
        "too-cold-once": "Its place read {mean_c} on {read_on}.\n"
        "At {limit_c} or less its roots leave the feed in the pot.",
        "too-cold-undated": "Its place stands at {mean_c}.\n"
        "At {limit_c} or less its roots leave the feed in the pot.",
        "too-hot": "Its place has averaged {mean_c} over the last {days}.\n"
        "Above {limit_c} this kind is not fed.",
        "too-hot-some": "Its place averaged {mean_c} over {read} of the last {of}.\n"
        "Above {limit_c} this kind is not fed.",
        "too-hot-once": "Its place read {mean_c} on {read_on}.\n"
        "Above {limit_c} this kind is not fed.",
        "too-hot-undated": "Its place stands at {mean_c}.\n"
        "Above {limit_c} this kind is not fed.",
        # unfed rests
        "resting-nothing-moves": "It has its dry, unfed rest until {until}.\n"
        "On {seen} no new growth and no root tips showed.",
        "resting-stalled": "It has its dry, unfed rest until {until}.\n"
        "Its new growth stood still up to {seen}.",
        "resting-signs-not-known": "It has its dry, unfed rest until {until}.\n"
        "No look shows a new growth or root tips on the move.",
        "no-nitrogen-held": "This kind gets no nitrogen from {since} to {until}, "
        "whatever grows.",
        "no-nitrogen-held-budded": "Its flower buds showed on {seen}, so normal "
        "watering is back; nitrogen is not.\nFeed waits "
        "until {until}, and then for new shoots with "
        "roots of their own.",
        "no-nitrogen-after": "This kind has rested from nitrogen.\n"
        "Feed waits for a new shoot with roots of its own.",
        "no-nitrogen-after-hidden": "A new shoot was extending on {seen}, and its root "
        "tips are hidden.\n"
        "Feed waits until it has been on record for {days}, on {fed_from}.",
        "no-nitrogen-after-roots-not-recorded": "A new shoot was extending on {seen}.\n"
        "Its root tips are not on record.\n"
        "Look at the roots: feed waits for tips of its own.",
        "no-nitrogen-after-budded": "Its flower buds showed on {seen}, so normal "
        "watering is back; nitrogen is not.\nFeed waits "
        "for new shoots with roots of their own.",
        # the pot
        "just-repotted": "It was repotted on {repotted}, and no root tips have "
        "been seen since.\nFeed waits until they show, or until "
        "{until} is past; it then comes at {share}.",
        "salt-burn": "Salt burn was first seen on {seen}.\n"
        "It was not washed through between then and today.",
        "runoff-high": "Its runoff read {ec} mS/cm on {seen}, {days} ago.\n"
        "With {poured} mS/cm poured, {limit} mS/cm is the most that should come out.\n"
        "It was not washed through between then and today.",
        "runoff-high-today": "Its runoff reads {ec} mS/cm today.\n"
        "With {poured} mS/cm poured, {limit} mS/cm is the most that should come out.",
        "runoff-over-kind": "Its runoff read {ec} mS/cm on {seen}, {days} ago.\n"
        "A pot of its kind should hold {limit} mS/cm at most; its kind is {kind}.\n"
        "It was not washed through between then and today.",
        "runoff-over-kind-today": "Its runoff reads {ec} mS/cm today.\n"
        "A pot of its kind should hold {limit} mS/cm at most; its kind is {kind}.",
        "water-too-salty": "It is due a flush, but the water in use reads {water} "
        "mS/cm itself.\nA pot of its kind should hold {limit} "
        "mS/cm at most; its kind is {kind}.\nFlush it with rain "
        "or RO water, and water it with that.\nFeed waits until "
        "it is flushed.",
        "salts-over-kind": "By what it was given since {since}, its pot stands at "
        "{low_ec} mS/cm at the least.\n"
        "Its kind's limit is {limit} mS/cm.",
        "salts-may-stand": "By what it was given since {since}, its pot may stand at "
        "{low_ec} to {high_ec} mS/cm.\n"
        "Its kind's limit is {limit} mS/cm.\n"
        "Measure the runoff.",
        "salts-stand-too": "By what it was given since {since}, its pot may stand at "
        "{low_ec} to {high_ec} mS/cm.\n"
        "Its kind's limit is {limit} mS/cm.",
        "flush-twice": "Flush it twice, some hours apart.\n"
        "One soaking does not carry that much out.",
        "feeds-at-limit": "It has had {count} since it was last washed through on "
        "{washed}.\n"
        "Its potting takes {limit} before a flush.",
        "feeds-at-limit-repotted": "It has had {count} since it was repotted on "
        "{washed}.\n"
        "Its potting takes {limit} before a flush.",
        "feeds-at-limit-never-washed": "It has had {count}, and no flush is on "
        "record.\nIts potting takes {limit} before one.",
        "before-rest": "Its rest begins on {start}, and it goes into it with clean "
        "roots.",
        "before-rest-fed": "Its rest begins on {start}.\n"
        "Its pot is washed through once in the {days} before it.",
        "flush-put-off": "It is due a flush, but no growth was seen.\n"
        "A soaking now does more harm than the salts.",
        "flush-waits-for-warmth": "It is due a flush; that waits until its place is "
        "warmer.",
        "too-soon": "It was fed on {fed}, {days} ago.\nIts feeds lie {interval} apart.",
        # growth
        "idle-hidden": "This kind never rests: every {interval} it is fed at "
        "{share}.\nIts root tips are hidden, and the look of "
        "{seen} shows nothing else on the move.",
        "idle-not-recorded": "This kind never rests: every {interval} it is fed at "
        "{share}.\n"
        "The look of {seen} shows nothing on the move.\n"
        "Its root tips are not on record.",
        "idle-wait": "This kind never rests, so it is fed at {share} every "
        "{interval}.\nThe last feed was on {fed}.",
        "still-no-growth-no-tips": "On {seen} no new growth and no root tips showed.",
        "still-no-growth-tips-hidden": "On {seen} no new growth showed.\n"
        "Its root tips are hidden.",
        "still-no-growth-tips-not-recorded": "On {seen} no new growth showed.\n"
        "Root tips were not recorded.",
        "still-growth-not-recorded-no-tips": "On {seen} no root tips showed.\n"
        "New growths were not recorded.",
        "still-growth-not-recorded-tips-hidden": "Its root tips are hidden.\n"
        "The look of {seen} records no new growths.",
        "still-growth-not-recorded-tips-not-recorded": "The look of {seen} records "
        "neither new growths nor root "
        "tips.",
        "still-growth-stalled-no-tips": "Its new growth stands still, and on {seen} no "
        "root tips showed.",
        "still-growth-stalled-tips-hidden": "Its new growth stood still up to {seen}.\n"
        "The root tips are hidden.",
        "still-growth-stalled-tips-not-recorded": "Its new growth stood still up to "
        "{seen}.\n"
        "Root tips were not recorded.",
        "still-no-leaf-no-tips": "On {seen} no new leaf and no root tips were moving.",
        "still-no-leaf-tips-hidden": "On {seen} no new leaf was moving.\n"
        "Its root tips are hidden.",
        "still-no-leaf-tips-not-recorded": "On {seen} no new leaf was moving.\n"
        "Root tips were not recorded.",
        "still-leaf-not-recorded-no-tips": "On {seen} no root tips showed.\n"
        "A new leaf was not recorded.",
        "still-leaf-not-recorded-tips-hidden": "Its root tips are hidden.\n"
        "The look of {seen} records no new leaf.",
        "still-leaf-not-recorded-tips-not-recorded": "The look of {seen} records "
        "neither a new leaf nor root "
        "tips.",
        "growth-extending": "A new growth was extending on {seen}.",
        "growth-emerging": "A new growth had emerged on {seen}.",
        "growth-maturing": "A new growth was maturing on {seen}.",
        "tips-running": "Root tips were running on {seen}.",
        "tips-starting": "Root tips were just starting on {seen}.",
        "leaf-extending": "A new leaf was extending on {seen}.",
        "leaf-starting": "A new leaf was starting on {seen}.",
        "spike-draws-feed": "A spike or buds were on the way on {seen}.\n"
        "In this kind they draw feed.",
        "despite-growth-extending": "A new growth was extending on {seen}, but it "
        "has to wait.",
        "despite-growth-emerging": "A new growth had emerged on {seen}, but it has to "
        "wait.",
        "despite-growth-maturing": "A new growth was maturing on {seen}, but it has to "
        "wait.",
        "despite-tips-running": "Root tips were running on {seen}, but it has to wait.",
        "despite-tips-starting": "Root tips were just starting on {seen}, but it has "
        "to wait.",
        "despite-leaf-extending": "A new leaf was extending on {seen}, but it has to "
        "wait.",
        "despite-leaf-starting": "A new leaf was starting on {seen}, but it has to "
        "wait.",
        # bloom
        "bloom-buds-today-fed": "It is in bud, but that isn't why it is fed.",
        "bloom-buds-today-not": "It is in bud, but that isn't the reason.",
        "bloom-open-today-fed": "It is in flower, which neither asks for feed nor "
        "forbids it.",
        "bloom-open-today-not": "It is in flower, but that isn't the reason.",
        "bloom-fading-today-fed": "Its flowers are fading, which neither asks for "
        "feed nor forbids it.",
        "bloom-fading-today-not": "Its flowers are fading, but that isn't the reason.",
        "bloom-buds-then-fed": "It was in bud on {seen}, but that isn't why it is fed.",
        "bloom-buds-then-not": "It was in bud on {seen}, but that isn't the reason.",
        "bloom-open-then-fed": "It was in flower on {seen}, which neither asks for "
        "feed nor forbids it.",
        "bloom-open-then-not": "It was in flower on {seen}, but that isn't the reason.",
        "bloom-fading-then-fed": "Its flowers were fading on {seen}, which neither "
        "asks for feed nor forbids it.",
        "bloom-fading-then-not": "Its flowers were fading on {seen}, but that isn't "
        "the reason.",
        "bloom-waters-only": "Its buds bring the water back, not the feed.",
        "bloom-watered-only": "Its buds brought the water back; its flowers say "
        "nothing about feed.",
        # what is not known
        "kind-not-given": "Neither a kind nor a name is given.\n"
        "It is judged as a careful general one.",
        "kind-unknown": "No kind called {kind} is known.\n"
        "It is judged as a careful general one.",
        "slip-lead": "Its lead went from {before} to {after} in {days}.\n"
        "That looks like a slip, so the measures are left out.",
        "slip-roots": "Its longest new root went from {before} to {after} "
        "in {days}.\nThat looks like a slip, so the measures are "
        "left out.",
        "kind-unknown-bare": "No kind called {kind} is known; do give its kind.\n"
        "It stands bare, so until then it is treated as a kind that drops its leaves.",
        "kind-not-given-bare": "Its kind is not known; do give it.\n"
        "It stands bare, so until then it is treated as a kind that drops its leaves.",
        "look-later": "A look dated {seen} lies after this day and was not used.",
        "care-later": "Care dated {done} lies after this day and was not used.",
    }
)

NOT_RECORDED: dict[str, int] = {
    "bare-roots-unknown": 1,
    "roots-short-leaves-not-recorded": 1,
    "bare-not-measured": 1,
    "leaves-not-recorded": 1,
    "waking-not-measured": 1,
    "waking-maturing": 1,
    "leaves-not-recorded-until-growth": 1,
    "never-looked": 0,
    "shrivelled-roots-unknown": 1,
    "no-nitrogen-after-roots-not-recorded": 1,
    "idle-not-recorded": 2,
    "still-no-growth-tips-not-recorded": 1,
    "still-growth-not-recorded-no-tips": 1,
    "still-growth-not-recorded-tips-hidden": 1,
    "still-growth-not-recorded-tips-not-recorded": 0,
    "still-growth-stalled-tips-not-recorded": 1,
    "still-no-leaf-tips-not-recorded": 1,
    "still-leaf-not-recorded-no-tips": 1,
    "still-leaf-not-recorded-tips-hidden": 1,
    "still-leaf-not-recorded-tips-not-recorded": 0,
}
"""Which line of a reason tells of what nobody has recorded, counted from 0."""

SHORT: Phrases[str] = Phrases(
    {
        "overruled": "overruled by you",
        "bare": "bare, at rest",
        "bare-roots-unknown": "bare, measure the roots",
        "bare-roots-short": "bare, roots too short",
        "roots-short-leaves-not-recorded": "roots too short",
        "bare-not-measured": "bare, measure the roots",
        "not-measured-leaves-not-recorded": "measure the roots",
        "leaves-not-recorded": "leaf and roots not recorded",
        "leaf-roots-short": "in leaf, roots too short",
        "leaf-no-roots": "in leaf, roots not running",
        "waking-not-rooted": "waking, not rooted yet",
        "waking-not-measured": "waking, measure the roots",
        "waking-maturing": "growth maturing, measure the roots",
        "leaves-not-recorded-until-growth": "leaf not recorded, nothing new",
        "bare-until-growth": "at rest, nothing new",
        "going-down-yellowing": "going down, leaves yellowing",
        "going-down-dropping": "going down, leaves dropping",
        "still-green": "green past its time",
        "still-green-maturing": "green past its time",
        "still-green-tips": "green past its time",
        "still-green-maturing-tips": "green past its time",
        "never-looked": "never looked at",
        "look-old": "look too old",
        "rot": "rot: handle last",
        "no-live-roots": "no live roots",
        "badly-shrivelled": "badly shrivelled, roots alive",
        "shrivelled-roots-unknown": "badly shrivelled, check roots",
        "too-cold": "place too cold",
        "too-cold-some": "place too cold",
        "too-cold-once": "place too cold",
        "too-cold-undated": "place too cold",
        "too-hot": "place too hot",
        "too-hot-some": "place too hot",
        "too-hot-once": "place too hot",
        "too-hot-undated": "place too hot",
        "resting-nothing-moves": "dry rest, nothing moves",
        "resting-stalled": "dry rest, lead stands still",
        "resting-signs-not-known": "dry rest, signs not recorded",
        "no-nitrogen-held": "no nitrogen at this season",
        "no-nitrogen-held-budded": "in bud, no nitrogen yet",
        "no-nitrogen-after": "waits for rooted new shoots",
        "no-nitrogen-after-budded": "in bud, waits for shoots",
        "no-nitrogen-after-hidden": "roots hidden, shoot still young",
        "no-nitrogen-after-roots-not-recorded": "shoot extends, look at the roots",
        "just-repotted": "just repotted",
        "salt-burn": "salt burn",
        "runoff-high": "runoff too strong",
        "runoff-high-today": "runoff too strong",
        "runoff-over-kind": "runoff above its kind's limit",
        "runoff-over-kind-today": "runoff above its kind's limit",
        "water-too-salty": "water too salty to flush",
        "salts-over-kind": "salts high by estimate",
        "feeds-at-limit": "due after its feeds",
        "feeds-at-limit-repotted": "due after its feeds",
        "feeds-at-limit-never-washed": "no flush on record",
        "before-rest": "washed before its rest",
        "before-rest-fed": "washed before its rest",
        "too-soon": "fed lately",
        "idle-hidden": "never rests, roots hidden",
        "idle-not-recorded": "never rests, roots not recorded",
        "still-no-growth-no-tips": "nothing moves",
        "still-no-growth-tips-hidden": "no growth seen, roots hidden",
        "still-no-growth-tips-not-recorded": "signs not recorded",
        "still-growth-not-recorded-no-tips": "signs not recorded",
        "still-growth-not-recorded-tips-hidden": "no growth seen, roots hidden",
        "still-growth-not-recorded-tips-not-recorded": "signs not recorded",
        "still-growth-stalled-no-tips": "new growth stands still",
        "still-growth-stalled-tips-hidden": "new growth stands still",
        "still-growth-stalled-tips-not-recorded": "new growth stands still",
        "still-no-leaf-no-tips": "nothing moves",
        "still-no-leaf-tips-hidden": "no growth seen, roots hidden",
        "still-no-leaf-tips-not-recorded": "signs not recorded",
        "still-leaf-not-recorded-no-tips": "signs not recorded",
        "still-leaf-not-recorded-tips-hidden": "no growth seen, roots hidden",
        "still-leaf-not-recorded-tips-not-recorded": "signs not recorded",
        "growth-extending": "new growth extending",
        "growth-emerging": "new growth up",
        "growth-maturing": "growth maturing",
        "tips-running": "root tips running",
        "tips-starting": "root tips starting",
        "leaf-extending": "new leaf extending",
        "leaf-starting": "new leaf starting",
        "spike-draws-feed": "spike on the way",
    }
)

STEPS: Phrases[str] = Phrases(
    {
        "full-house": "the house's full strength is {strength} ppm N",
        "full-own": "its own full strength is {strength} ppm N",
        "feeder-light": "a light feeder takes {taken}, {strength} ppm N",
        "feeder-medium": "a medium feeder takes it whole",
        "feeder-heavy": "a heavy feeder takes {taken}, {strength} ppm N",
        "season-controlled": "the place is controlled, so the season takes nothing off",
        "season-light": "the light of the season leaves {share}, {strength} ppm N",
        "season-light-read": "its light was read at {dli} mol a day of the {full_dli} "
        "this kind wants, which leaves {share}, {strength} ppm N",
        "season-lamps": "its lamps give {dli} mol of light a day of the "
        "{full_dli} this kind wants, which leaves {share}, "
        "{strength} ppm N",
        "season-lamps-and-daylight": "its lamps and the daylight give about {dli} "
        "mol of light a day of the {full_dli} this kind "
        "wants, which leaves {share}, {strength} ppm N",
        "season-window": "its {facing} window gives about {dli} mol of light a "
        "day of the {full_dli} this kind wants, which leaves "
        "{share}, {strength} ppm N",
        "season-roof": "the roof over it lets in about {dli} mol of light a day of the "
        "{full_dli} this kind wants, which leaves {share}, {strength} ppm N",
        "season-open-side": "open to the {facing} it gets about {dli} mol of light a "
        "day of the {full_dli} this kind wants, which leaves "
        "{share}, {strength} ppm N",
        "season-open-sky": "under the open sky it gets about {dli} mol of light a "
        "day of the {full_dli} this kind wants, which leaves "
        "{share}, {strength} ppm N",
        "season-temperature": "a mean of {mean_c} over {days} leaves {share}, "
        "{strength} ppm N",
        "season-temperature-some": "a mean of {mean_c} over {read} of the last {of} "
        "leaves {share}, {strength} ppm N",
        "season-temperature-once": "the {mean_c} read on {read_on} leave {share}, "
        "{strength} ppm N",
        "season-temperature-undated": "a place at {mean_c} leaves {share}, "
        "{strength} ppm N",
        "performance-lead-own": "its lead makes {rate} a week against {best} in "
        "its best season, which leaves {share}, {strength} ppm N",
        "performance-lead-kind": "its lead makes {rate} a week against {best} "
        "usual for its kind, which leaves {share}, "
        "{strength} ppm N",
        "performance-roots-own": "its roots make {rate} a week against {best} in "
        "their best season, which leaves {share}, {strength} ppm N",
        "performance-roots-kind": "its roots make {rate} a week against {best} "
        "usual for its kind, which leaves {share}, "
        "{strength} ppm N",
        "performance-lead-own-in-season": "its lead makes {rate} a week against "
        "{best} in its best season, but the season here leaves {share}, "
        "{strength} ppm N",
        "performance-lead-kind-in-season": "its lead makes {rate} a week against "
        "{best} usual for its kind, but the season here leaves {share}, "
        "{strength} ppm N",
        "performance-roots-own-in-season": "its roots make {rate} a week against "
        "{best} in their best season, but the season here leaves {share}, "
        "{strength} ppm N",
        "performance-roots-kind-in-season": "its roots make {rate} a week against "
        "{best} usual for its kind, but the season here leaves {share}, "
        "{strength} ppm N",
        "seedling": "a seedling takes {taken}, {strength} ppm N",
        "no-tips-yet": "a growth without root tips takes {taken}, {strength} ppm N",
        "fresh-repot": "repotted on {repotted} and without a root tip seen "
        "since, it takes {taken}, {strength} ppm N",
        "slow-release": "slow release in the pot leaves {taken}, {strength} ppm N",
        "sphagnum": "in sphagnum, which holds salts, it takes {taken}, {strength} "
        "ppm N",
        "fed-oftener": "with feeds {interval} apart, where the house keeps {days}, it "
        "takes {share}, {strength} ppm N",
        "fed-oftener-since": "fed again after {interval}, where the house keeps "
        "{days}, it takes {share}, {strength} ppm N",
        "idle": "with no growth in sight it takes {taken}, {strength} ppm N",
        "floor": "the house's floor lifts it to {strength} ppm N",
        "ceiling-house": "the house's ceiling holds it at {strength} ppm N",
        "ceiling-own": "its own ceiling holds it at {strength} ppm N",
        "ceiling-kind": "the ceiling published for its kind holds it at {strength} "
        "ppm N",
        "ceiling-kind-ours": "our careful ceiling for its kind holds it at "
        "{strength} ppm N",
        "ceiling-kind-yours": "the ceiling you gave its kind holds it at {strength} "
        "ppm N",
        "rounded": "in steps of {step} ppm N that is {strength} ppm N",
    }
)
SHARES: Phrases[float] = Phrases(
    {
        0.25: "a quarter",
        0.5: "half",
        0.75: "three quarters",
        1.0: "full strength",
        1.25: "a quarter more",
        1.5: "half as much again",
    }
)
SALTS: Phrases[str] = Phrases(
    {
        "since-reading": "Its runoff read {ec} mS/cm on {since}.\n"
        "By what it was given since, its pot may now stand at {low_ec} to {high_ec} "
        "mS/cm.\n"
        "Its kind's limit is {limit} mS/cm.",
        "since-reading-dry": "Its runoff read {ec} mS/cm on {since}, and nothing was "
        "given since.\n"
        "Its kind's limit is {limit} mS/cm.",
        "since-flush": "It was flushed on {since}.\n"
        "By what it was given since, its pot may now stand at {low_ec} to {high_ec} "
        "mS/cm.\n"
        "Its kind's limit is {limit} mS/cm.",
        "since-repot": "It was repotted on {since}.\n"
        "By what it was given since, its pot may now stand at {low_ec} to {high_ec} "
        "mS/cm.\n"
        "Its kind's limit is {limit} mS/cm.",
        "assumes": "An estimate: the pot is taken to hold {held} of water and to lose "
        "{dry_low} to {dry_high} % of it a day.\n"
        "Of what runs through, {mix_low} to {mix_high} % is taken to carry salts off.\n"
        "The water is taken to read {water_ec} mS/cm.",
        "medium": "Its medium is not recorded and is taken as bark.",
        "litres": "Litres that are not on record are taken as its usual round.",
        "strength": "Feeds without a strength are taken at {strength} ppm N.",
        "slow-release": "The slow release in its pot is not counted.",
        "flush-brings": "{litres} of clear water should bring it to about {after} "
        "mS/cm.",
        "water-too-salty": "The water alone reads {water_ec} mS/cm.\n"
        "Its kind's limit is {limit} mS/cm.\n"
        "Flush it with rain or RO water.",
    }
)
STRENGTH = mark("It wants {strength} ppm N: {steps}.")
KIND_CORRECTED = mark("You corrected its kind: {fields}.")
KIND_CORRECTED_HERE = mark("You corrected its kind for this plant: {fields}.")

LIGHT: Phrases[str] = Phrases(
    {
        "season-controlled": "It is lit as the plants want.",
        "season-light-read": "Its light was read at {dli} mol a day, the mean of "
        "{read_days} days.",
        "season-lamps": "By its lamps it has {dli} mol of light a day.",
        "season-lamps-and-daylight": "By its lamps it has {lamps_dli} mol of light a "
        "day, and by day about {daylight_dli} mol more "
        "today.",
        "season-window": "By its {facing} window it has about {dli} mol of light "
        "today.",
        "season-roof": "Through its roof it has about {dli} mol of light today.",
        "season-open-side": "Open to the {facing} it has about {dli} mol of light "
        "today.",
        "season-open-sky": "Under the open sky it has about {dli} mol of light today.",
        "season-light": "Its facing, lamps and light are not recorded, so its "
        "plants go by the light of the season.",
    }
)
