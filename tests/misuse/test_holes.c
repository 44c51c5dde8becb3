/* SPDX-License-Identifier: MIT */
/* Structures with something missing inside: a scene without a lamp, a stone without a species. The
 * generator (generate.py) leaves such pointers honest. */
#include "../run_case.h"
#include "interfig/interfig.h"
#include "interfig/retardation.h"

static IfigCatalogue *catalogue;
static IfigLamp *lamp;
static IfigLayer layer;
static IfigScene whole;

static void set_up(void)
{
    layer = (IfigLayer)IFIG_LAYER_INIT;
    whole = (IfigScene)IFIG_SCENE_INIT;
    ck_assert_int_eq(ifig_catalogue_create(&catalogue, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_catalogue_find(catalogue, "quartz", &layer.species, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &lamp, NULL), IFIG_OK);
    layer.thickness_mm = 3;
    whole.layers = &layer;
    whole.layer_count = 1;
    whole.lamp = lamp;
}

static void take_down(void)
{
    ifig_lamp_free(lamp);
    ifig_catalogue_free(catalogue);
}

/* What each function that looks at a scene says to it, one after the other. */
enum { LOOKS = 8 };

static IfigStatus look(int which, const IfigScene *scene)
{
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigScene bare = *scene;
    IfigFigure *figure = NULL;
    IfigFace *face = NULL;
    IfigProbe probe;
    IfigReading reading = IFIG_READING_INIT;
    IfigBlink blink = IFIG_BLINK_INIT;
    IfigHunt hunt = IFIG_HUNT_INIT;
    IfigStatus status = IFIG_OK;
    double x, y;
    static uint8_t rgb[16 * 16 * 3];
    const double up[] = {0, 0, 1};
    bare.instrument.lens = IFIG_LENS_NONE;
    options.pixels = 16;
    switch (which) {
    case 0:
        status = ifig_figure_create(scene, &options, &figure, NULL);
        ifig_figure_free(figure);
        return status;
    case 1:
        return ifig_probe(scene, 0, 0, 0, &probe, NULL);
    case 2:
        return ifig_reading(scene, &reading, NULL);
    case 3:
        return ifig_blink(&bare, NULL, &blink, NULL);
    case 4:
        status = ifig_face_create(&bare, NULL, &options, &face, NULL);
        ifig_face_free(face);
        return status;
    case 5:
        return ifig_hunt(scene, &hunt, NULL);
    case 6:
        return ifig_hunt_map(scene, &options, rgb, NULL);
    default:
        return ifig_hunt_place(scene, up, &x, &y, NULL);
    }
}

START_TEST(a_whole_scene_is_taken_by_all)
{
    for (int which = 0; which < LOOKS; which++) {
        ck_assert_msg(look(which, &whole) == IFIG_OK, "look %d", which);
    }
}
END_TEST

START_TEST(a_scene_with_a_hole_is_refused_by_all)
{
    for (int hole = 0; hole < 4; hole++) {
        IfigScene scene = whole;
        scene.lamp = hole == 0 ? NULL : scene.lamp;
        scene.layers = hole == 1 ? NULL : scene.layers;
        scene.size -= hole == 2 ? 1 : 0;
        scene.layer_count = hole == 3 ? 0 : 1;
        for (int which = 0; which < LOOKS; which++) {
            ck_assert_msg(look(which, &scene) != IFIG_OK, "hole %d: look %d", hole, which);
        }
    }
}
END_TEST

START_TEST(a_layer_of_a_foreign_size_or_without_a_species_is_refused_by_all)
{
    for (int hole = 0; hole < 2; hole++) {
        const IfigLayer honest = layer;
        layer.size -= hole == 0 ? 1 : 0;
        layer.species = hole == 1 ? NULL : layer.species;
        for (int which = 0; which < LOOKS; which++) {
            ck_assert_msg(look(which, &whole) != IFIG_OK, "hole %d: look %d", hole, which);
        }
        layer = honest;
    }
}
END_TEST

START_TEST(stones_and_retarders_without_a_species_are_refused)
{
    const IfigStone stone = {.species = layer.species}, none = {.species = NULL};
    const IfigRetarder retarder = {.species = NULL};
    IfigTraits traits = IFIG_TRAITS_INIT;
    IfigPairContrast contrast = IFIG_PAIR_CONTRAST_INIT;
    static char text[8000];
    double birefringence;
    ck_assert_int_ne(ifig_traits(&none, NULL, 3, &traits, NULL), IFIG_OK);
    ck_assert_int_ne(ifig_contrast(&stone, &none, NULL, 3, &contrast, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_contrast(&stone, &stone, NULL, 3, &contrast, NULL), IFIG_OK);
    ck_assert_int_ne(ifig_contrast_describe(&none, &stone, &contrast, text, sizeof text, NULL),
                     IFIG_OK);
    ck_assert_int_ne(ifig_contrast_describe(&stone, &none, &contrast, text, sizeof text, NULL),
                     IFIG_OK);
    ck_assert_int_ne(ifig_retarder_birefringence(&retarder, 589.3, &birefringence, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_retarder_is_dispersed(&retarder), 0);
}
END_TEST

START_TEST(words_without_room_or_of_a_foreign_size_are_refused)
{
    char text[64];
    IfigHunt hunt = IFIG_HUNT_INIT;
    IfigReading reading = IFIG_READING_INIT;
    ck_assert_int_eq(ifig_hunt_describe(&hunt, NULL, 64, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_hunt_describe(&hunt, text, 0, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_reading_describe(&reading, NULL, 64, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_reading_describe(&reading, text, 0, NULL), IFIG_ERROR_ARGUMENT);
    hunt.size--;
    ck_assert_int_eq(ifig_hunt_describe(&hunt, text, sizeof text, NULL), IFIG_ERROR_ARGUMENT);
    ck_assert_int_eq(ifig_hunt(&whole, &hunt, NULL), IFIG_ERROR_ARGUMENT);
}
END_TEST

START_TEST(what_is_no_value_of_an_enumeration_has_no_name)
{
    ck_assert_ptr_null(ifig_other_test_name(IFIG_TEST_COUNT));
    ck_assert_ptr_null(ifig_other_test_name((IfigOtherTest)-1));
    ck_assert_ptr_null(ifig_sureness_name((IfigSureness)(IFIG_SURE_ANYONE + 1)));
    ck_assert_ptr_null(ifig_sureness_name((IfigSureness)-1));
    ck_assert_ptr_null(ifig_clue_name(IFIG_CLUE_COUNT));
    ck_assert_ptr_null(ifig_axial_dispersion_text((IfigAxialDispersion)99));
    ck_assert_ptr_null(ifig_axial_dispersion_text((IfigAxialDispersion)-1));
    ck_assert_ptr_null(ifig_view_name((IfigView)99));
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("holes");
    tcase_add_checked_fixture(facts, set_up, take_down);
    tcase_add_test(facts, a_whole_scene_is_taken_by_all);
    tcase_add_test(facts, a_scene_with_a_hole_is_refused_by_all);
    tcase_add_test(facts, a_layer_of_a_foreign_size_or_without_a_species_is_refused_by_all);
    tcase_add_test(facts, stones_and_retarders_without_a_species_are_refused);
    tcase_add_test(facts, words_without_room_or_of_a_foreign_size_are_refused);
    tcase_add_test(facts, what_is_no_value_of_an_enumeration_has_no_name);
    return run_case(facts, "misuse holes");
}
