/* SPDX-License-Identifier: MIT */
/* Every word that a page adds of its own, in English. Another language is another such table. */
#include "messages.h"

#include <stddef.h>
#include <string.h>

static const char *const MESSAGES[IFIG_PAGE_SAY_COUNT] = {
    [IFIG_PAGE_SAY_BLINK_TURN] = "The stone turned between the polars",
    [IFIG_PAGE_SAY_BLINK_TURN_AXIS] = "turn of the stone (degrees)",
    [IFIG_PAGE_SAY_BLINK_OPENED] = "The analyser opened",
    [IFIG_PAGE_SAY_BLINK_OPENED_AXIS] = "analyser opened by (degrees)",
    [IFIG_PAGE_SAY_BLINK_BRIGHTNESS] = "brightness (share of the light)",
    [IFIG_PAGE_SAY_BLINK_BRIGHTEST] = "brightest",
    [IFIG_PAGE_SAY_BLINK_COLOURS] = "What the eye sees at 16 turns",
    [IFIG_PAGE_SAY_BLINK_TURN_WORDS] = "A curve of the stone's brightness against its turn through "
                                       "a whole circle: least {1}, most "
                                       "{2} of the light behind the polariser.",
    [IFIG_PAGE_SAY_BLINK_OPENED_WORDS] =
        "A curve of the stone's brightness, at its brightest turn, against the opening of the "
        "analyser: {1} with the polars as they stood, {2} with the analyser opened by 90 degrees.",
    [IFIG_PAGE_SAY_BLINK_COLOURS_WORDS] =
        "Sixteen discs in the colours of the stone at turns of 0, 22.5, 45 and so on to 337.5 "
        "degrees.",
    [IFIG_PAGE_SAY_DEGREES] = "{1}\xc2\xb0",
    [IFIG_PAGE_SAY_WORD] = "{1}",
    [IFIG_PAGE_SAY_LIST] = "{1}; {2}",
    [IFIG_PAGE_SAY_HUNT_WORDS] =
        "A map of all directions of view, a half sphere in equal areas, each direction in the "
        "colour that the stone shows there at its brightest turn. Marked: {1}.",
    [IFIG_PAGE_SAY_HUNT_LEGEND] = "How to read the map",
    [IFIG_PAGE_SAY_HUNT_CRYSTAL_AXIS] = "axis of the indicatrix",
    [IFIG_PAGE_SAY_HUNT_OPTIC_AXIS] =
        "optic axis: the patch of spectrum colours lies around it, and the lens shows its figure "
        "there",
    [IFIG_PAGE_SAY_HUNT_TABLE] = "looking straight through a usual table",
    [IFIG_PAGE_SAY_HUNT_CIRCLES] =
        "tilt from the direction at the centre, in degrees inside the stone",
    [IFIG_PAGE_SAY_HUNT_RIM] =
        "Each point is one direction of looking through the stone; opposite points of the rim are "
        "the same direction. Equal areas are equal chances for a stone picked up at random.",
    [IFIG_PAGE_SAY_FIGURE_WORDS] = "{1}: what the polariscope shows. {2}",
    [IFIG_PAGE_SAY_CHART_THICKNESS] = "thickness\n(mm)",
    [IFIG_PAGE_SAY_CHART_RETARDATION] = "retardation (nm)",
    [IFIG_PAGE_SAY_CHART_BIREFRINGENCE] = "the number on each line is its birefringence",
    [IFIG_PAGE_SAY_CHART_ORDER] = "{1} order",
    [IFIG_PAGE_SAY_CHART_ORDER_OTHER] = "{1}th",
    [IFIG_PAGE_SAY_CHART_ORDER_FIRST] = "1st",
    [IFIG_PAGE_SAY_CHART_ORDER_SECOND] = "2nd",
    [IFIG_PAGE_SAY_CHART_ORDER_THIRD] = "3rd",
    [IFIG_PAGE_SAY_CHART_FAN_WORDS] =
        "A chart of thickness against retardation. A straight line from the corner stands for each "
        "birefringence. Species are marked where the line of their birefringence leaves the chart:",
    [IFIG_PAGE_SAY_CHART_MARK] = " {1} {2};",
    [IFIG_PAGE_SAY_CHART_COLOURS_WORDS] =
        "A strip of the colours that belong to each retardation, in words from where they begin:",
    [IFIG_PAGE_SAY_CHART_COLOUR_FROM] = " {1} nm {2};",
    [IFIG_PAGE_SAY_CHART_STRIPS] =
        "Anomalous colours: how far blue (486 nm) and red light (656 nm) are retarded, yellow (589 "
        "nm) being 100 %",
    [IFIG_PAGE_SAY_CHART_STRIP] = ": blue {1} %, red {2} %. ",
    [IFIG_PAGE_SAY_CHART_STRIP_TURNED] =
        ": blue {1} %, red {2} %: slow and fast change places between them. ",
    [IFIG_PAGE_SAY_CHART_COLOUR_AT] = "{1} nm {2}",
    [IFIG_PAGE_SAY_LINE] = "{1}{2}",
    [IFIG_PAGE_SAY_CHART_INSTEAD] = "At {1}.",
    [IFIG_PAGE_SAY_CHART_INSTEAD_ONE] = "{1} instead of {2}",
    [IFIG_PAGE_SAY_CHART_INSTEAD_NEXT] = "{1}, at {2}",
    [IFIG_PAGE_SAY_CHART_ALIKE] = "At the end of each order the colour has the usual name.",
    [IFIG_PAGE_SAY_CHART_ALONG] = "{1} seen along {2}",
    [IFIG_PAGE_SAY_CHART_STRIP_WORDS] = "A strip of the colours of {1}{2}",
    [IFIG_PAGE_SAY_SHEET_CAUTION_EVIDENCE] =
        "A figure is evidence, not an identification: confirm it by refractive index, specific "
        "gravity or spectrum.",
    [IFIG_PAGE_SAY_SHEET_CAUTION_SUN] = "Never look at the sun or any intense source through "
                                        "polarisers: they do not protect the eye.",
    [IFIG_PAGE_SAY_SHEET_PROVENANCE] = "interfig {1}",
    [IFIG_PAGE_SAY_SHEET_PAGE] = "page {1} of {2}",
    [IFIG_PAGE_SAY_SHEET_RULER] = "50 mm when printed at 100 %",
    [IFIG_PAGE_SAY_SHEET_RULER_WORDS] =
        "A ruler of 50 mm, to check that the sheet was printed at its full size.",
    [IFIG_PAGE_SAY_SHEET_COMPUTED] = "expected",
    [IFIG_PAGE_SAY_SHEET_PHOTO] = "photograph",
    [IFIG_PAGE_SAY_SHEET_SKETCH] = "your sketch",
    [IFIG_PAGE_SAY_SHEET_SKETCH_WORDS] = "An empty circle to draw in what you see of {1}.",
    [IFIG_PAGE_SAY_SHEET_PHOTO_WORDS] =
        "A photograph of {1} through the lens, at the size and turn of the expected figure.",
    [IFIG_PAGE_SAY_SHEET_FACE_WORDS] = "The face of {1} between the polars, without a lens. {2}.",
    [IFIG_PAGE_SAY_SHEET_SCENE_WORDS] = "The expected interference figure of {1}. {2}.",
    [IFIG_PAGE_SAY_SHORT_ISOTROPIC] = "Singly refractive: no figure, dark at every turn.",
    [IFIG_PAGE_SAY_SHORT_UNIAXIAL_POSITIVE] = "Uniaxial, positive.",
    [IFIG_PAGE_SAY_SHORT_UNIAXIAL_NEGATIVE] = "Uniaxial, negative.",
    [IFIG_PAGE_SAY_SHORT_BIAXIAL_POSITIVE] = "Biaxial, positive.",
    [IFIG_PAGE_SAY_SHORT_BIAXIAL_NEGATIVE] = "Biaxial, negative.",
    [IFIG_PAGE_SAY_SHORT_BIAXIAL_NEITHER] =
        "Biaxial, 2V 90\xc2\xb0: neither positive nor negative.",
    [IFIG_PAGE_SAY_SHORT_AGGREGATE] = "An aggregate: never dark, no figure.",
    [IFIG_PAGE_SAY_SHORT_CROSS] = "A closed dark cross.",
    [IFIG_PAGE_SAY_SHORT_TWO_BRUSHES] = "Two dark brushes, each through a melatope.",
    [IFIG_PAGE_SAY_SHORT_ONE_BRUSH] = "One dark brush through the melatope.",
    [IFIG_PAGE_SAY_SHORT_ARMS] = "Dark arms; no melatope lies in the picture.",
    [IFIG_PAGE_SAY_SHORT_BULLS_EYE] = "The arms of the cross end at a bull\xe2\x80\x99s eye, {1}.",
    [IFIG_PAGE_SAY_SHORT_ANGLES] = "2V {1}\xc2\xb0, seen from outside as 2E {2}\xc2\xb0.",
    [IFIG_PAGE_SAY_SHORT_ANGLE] = "2V {1}\xc2\xb0: the axes cannot leave the stone.",
    [IFIG_PAGE_SAY_SHORT_ORDERS] = "The picture spans {1} orders of colour.",
    [IFIG_PAGE_SAY_SHORT_PLATE_BOTH] = "With the plate, grey turns blue in {1} and yellow in {2}.",
    [IFIG_PAGE_SAY_SHORT_PLATE_ALL_RISE] = "With the plate, grey turns blue in {1}.",
    [IFIG_PAGE_SAY_SHORT_PLATE_ALL_FALL] = "With the plate, grey turns yellow in {1}.",
    [IFIG_PAGE_SAY_SHORT_PLATE_BETWEEN_RISES] =
        "With the plate, grey between the two melatopes turns blue.",
    [IFIG_PAGE_SAY_SHORT_PLATE_BETWEEN_FALLS] =
        "With the plate, grey between the two melatopes turns yellow.",
    [IFIG_PAGE_SAY_QUADRANT_NE] = "NE",
    [IFIG_PAGE_SAY_QUADRANT_NW] = "NW",
    [IFIG_PAGE_SAY_QUADRANT_SW] = "SW",
    [IFIG_PAGE_SAY_QUADRANT_SE] = "SE",
    [IFIG_PAGE_SAY_AND] = "{1} and {2}",
    [IFIG_PAGE_SAY_LABEL_POLARISER] = "P",
    [IFIG_PAGE_SAY_LABEL_ANALYSER] = "A",
    [IFIG_PAGE_SAY_LABEL_PLATE] = "plate \xce\xb3",
    [IFIG_PAGE_SAY_LABEL_TURNS_LEFT] = "{1} \xe2\x86\xba",
    [IFIG_PAGE_SAY_LABEL_TURNS_RIGHT] = "{1} \xe2\x86\xbb",
    [IFIG_PAGE_SAY_LABEL_SCALE_AIR] = "angle in air",
    [IFIG_PAGE_SAY_LABEL_SCALE_AIR_SHORT] = "in air",
    [IFIG_PAGE_SAY_LABEL_SCALE_LIQUID] = "angle in liquid",
    [IFIG_PAGE_SAY_LABEL_SCALE_LIQUID_SHORT] = "in liquid",
    [IFIG_PAGE_SAY_LABEL_MELATOPE] = "M",
    [IFIG_PAGE_SAY_LABEL_TWO_MELATOPES] = "2 M",
    [IFIG_PAGE_SAY_LABEL_BRUSH] = "isogyre",
    [IFIG_PAGE_SAY_LABEL_EYE] = "bull\xe2\x80\x99s eye",
    [IFIG_PAGE_SAY_LABEL_SLOW] = "slow \xce\xb3\xe2\x80\xb2",
    [IFIG_PAGE_SAY_LABEL_FAST] = "fast \xce\xb1\xe2\x80\xb2",
    [IFIG_PAGE_SAY_LABEL_AXIAL_PLANE] = "optic axial plane",
    [IFIG_PAGE_SAY_LABEL_ACUTE] = "Bx\xe2\x82\x90",
    [IFIG_PAGE_SAY_LABEL_OBTUSE] = "Bx\xe2\x82\x92",
    [IFIG_PAGE_SAY_LABEL_TILT] = "tilt {1}\xc2\xb0",
    [IFIG_PAGE_SAY_KEY] = "The labels",
    [IFIG_PAGE_SAY_KEY_POLARISER] = "<b>P</b>: direction that the polariser passes",
    [IFIG_PAGE_SAY_KEY_ANALYSER] = "<b>A</b>: direction that the analyser passes",
    [IFIG_PAGE_SAY_KEY_CIRCULAR] =
        "<b>\xe2\x86\xba \xe2\x86\xbb</b>: circular polar, and the way its light turns",
    [IFIG_PAGE_SAY_KEY_PLATE] = "<b>plate \xce\xb3</b>: slow direction of the accessory plate",
    [IFIG_PAGE_SAY_KEY_MELATOPE] = "<b>M</b>: melatope, in a ring: where an optic axis comes out",
    [IFIG_PAGE_SAY_KEY_BRUSH] = "<b>isogyre</b>: dark brush: the light vibrates along a polar",
    [IFIG_PAGE_SAY_KEY_EYE] =
        "<b>bull\xe2\x80\x99s eye</b>: rotation along the axis keeps the brushes off",
    [IFIG_PAGE_SAY_KEY_RINGS] =
        "<b>1, 2, 3</b>: ring where one wave lags by that many wavelengths ({1} nm)",
    [IFIG_PAGE_SAY_KEY_SLOW] = "<b>slow \xce\xb3\xe2\x80\xb2</b>: solid arrow: the slow wave "
                               "vibrates along it there",
    [IFIG_PAGE_SAY_KEY_FAST] = "<b>fast \xce\xb1\xe2\x80\xb2</b>: dashed arrow: the fast wave "
                               "vibrates along it there",
    [IFIG_PAGE_SAY_KEY_AXIAL_PLANE] =
        "<b>optic axial plane</b>: dashes and dots: it holds both optic axes",
    [IFIG_PAGE_SAY_KEY_ACUTE] = "<b>Bx\xe2\x82\x90</b>: acute bisectrix, a diamond",
    [IFIG_PAGE_SAY_KEY_OBTUSE] = "<b>Bx\xe2\x82\x92</b>: obtuse bisectrix, a diamond",
    [IFIG_PAGE_SAY_KEY_TILT] = "<b>tilt</b>: the stone leans toward the wedge at the rim",
    [IFIG_PAGE_SAY_KEY_SCALE_AIR] =
        "<b>scale</b>: angle of the rays to the line of sight, in air, from the centre out",
    [IFIG_PAGE_SAY_KEY_SCALE_LIQUID] =
        "<b>scale</b>: angle of the rays to the line of sight, in the liquid, from the centre out",
    [IFIG_PAGE_SAY_NOT_READ] = "This figure is not read: {1}.",
    [IFIG_PAGE_SAY_ALTERNATIVE_NOT_READ] =
        "An interference figure as a polariscope or a microscope shows it: colours in a round "
        "field.",
    [IFIG_PAGE_SAY_EXERCISE_UNIAXIAL] = "uniaxial",
    [IFIG_PAGE_SAY_EXERCISE_BIAXIAL] = "biaxial",
    [IFIG_PAGE_SAY_EXERCISE_POSITIVE] = "positive",
    [IFIG_PAGE_SAY_EXERCISE_NEGATIVE] = "negative",
    [IFIG_PAGE_SAY_EXERCISE_NE] = "upper right",
    [IFIG_PAGE_SAY_EXERCISE_NW] = "upper left",
    [IFIG_PAGE_SAY_EXERCISE_SW] = "lower left",
    [IFIG_PAGE_SAY_EXERCISE_SE] = "lower right",
    [IFIG_PAGE_SAY_EXERCISE_NEAR_CENTRE] = "{1}, nearer the centre than the rim",
    [IFIG_PAGE_SAY_EXERCISE_NEAR_RIM] = "{1}, nearer the rim than the centre",
    [IFIG_PAGE_SAY_EXERCISE_NE_SW] = "from lower left to upper right",
    [IFIG_PAGE_SAY_EXERCISE_NW_SE] = "from lower right to upper left",
    [IFIG_PAGE_SAY_EXERCISE_FULL_WAVE] =
        "A full-wave plate (550 nm) is in, its slow direction {1}.",
    [IFIG_PAGE_SAY_EXERCISE_QUARTER_WAVE] =
        "A quarter-wave plate (137.5 nm) is in, its slow direction {1}.",
    [IFIG_PAGE_SAY_EXERCISE_TWO_SENTENCES] = "{1} {2}",
    [IFIG_PAGE_SAY_EXERCISE_CHARACTER] = "Is the stone uniaxial or biaxial?",
    [IFIG_PAGE_SAY_EXERCISE_SIGN] = "What is the optic sign?",
    [IFIG_PAGE_SAY_EXERCISE_TWO_V] =
        "Estimate the optic angle 2V to within 10 degrees, from the places where the optic axes "
        "leave the stone. Its middle refractive index is {1}; the rim of the figure lies at {2} "
        "degrees in air.",
    [IFIG_PAGE_SAY_EXERCISE_TWO_V_BEND] =
        "Estimate the optic angle 2V to within 10 degrees, from the bend of the dark brush. The "
        "middle refractive index is {1}; the rim of the figure lies at {2} degrees in air.",
    [IFIG_PAGE_SAY_EXERCISE_TWO_V_ANSWER] = "2V = {1}\xc2\xb0; {2}",
    [IFIG_PAGE_SAY_EXERCISE_RANGE] = "{1}\xc2\xb0 to {2}\xc2\xb0 is right",
    [IFIG_PAGE_SAY_EXERCISE_SPECIES] =
        "The stone is {1} mm thick, without colour of its own. Which of these can it be?",
    [IFIG_PAGE_SAY_EXERCISE_AXIS] = "Where does the optic axis leave the stone?",
    [IFIG_PAGE_SAY_EXERCISE_AXIS_ANSWER] = "{1}: {2}\xc2\xb0 from the centre, in air",
    [IFIG_PAGE_SAY_EXERCISE_TITLE] = "Interference figures: exercise, level {1}",
    [IFIG_PAGE_SAY_EXERCISE_ANSWERS_TITLE] = "{1}: the answers",
    [IFIG_PAGE_SAY_EXERCISE_NAME] = "Name",
    [IFIG_PAGE_SAY_EXERCISE_DATE] = "Date",
    [IFIG_PAGE_SAY_EXERCISE_GIVEN] =
        "Each figure is seen through a glass ball between crossed polars: polariser P "
        "left to right, analyser A up and down. The rim lies at {1}\xc2\xb0 in air.",
    [IFIG_PAGE_SAY_EXERCISE_SLOW] = "slow",
    [IFIG_PAGE_SAY_EXERCISE_POLARISER] = "P",
    [IFIG_PAGE_SAY_EXERCISE_ANALYSER] = "A",
    [IFIG_PAGE_SAY_EXERCISE_NUMBER] = "{1}",
    [IFIG_PAGE_SAY_EXERCISE_WHY] = "What shows it?",
    [IFIG_PAGE_SAY_EXERCISE_DEGREES] = "2V = ............ degrees",
    [IFIG_PAGE_SAY_EXERCISE_FIGURE_WORDS] =
        "The figure of question {1}: an interference figure without labels.",
    [IFIG_PAGE_SAY_EXERCISE_STONE] = "{1}, {2} mm",
    [IFIG_PAGE_SAY_EXERCISE_PAGE] = "{1}",
    [IFIG_PAGE_SAY_EXERCISE_CAUTION] =
        "A figure is evidence, not an identification: confirm it by refractive index, specific "
        "gravity or spectrum. Never look at the sun or any intense source through polarisers: they "
        "do not protect the eye.",
};

const char *ifig_page_message(IfigPageMessage message)
{
    return MESSAGES[message];
}

static void append(IfigPageText *out, const char *from, size_t count)
{
    const size_t used = strlen(out->text), room = sizeof out->text - 1 - used;
    size_t taken = count < room ? count : room;
    while (taken > 0 && taken < count && ((unsigned char)from[taken] & 0xc0) == 0x80) {
        taken--; /* cut before a UTF-8 character, not inside it */
    }
    memcpy(out->text + used, from, taken);
    out->text[used + taken] = '\0';
}

IfigPageText ifig_page_say(IfigPageMessage message, const char *first, const char *second)
{
    IfigPageText out = {""};
    for (const char *at = MESSAGES[message]; *at != '\0';) {
        const int is_first = strncmp(at, "{1}", 3) == 0, is_second = strncmp(at, "{2}", 3) == 0;
        if (is_first || is_second) {
            const char *const words = is_first ? first : second;
            append(&out, words != NULL ? words : "", words != NULL ? strlen(words) : 0);
            at += 3;
        } else {
            append(&out, at++, 1);
        }
    }
    return out;
}
