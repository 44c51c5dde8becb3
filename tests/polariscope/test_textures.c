/* SPDX-License-Identifier: MIT */
/* Which stone holds what, and what is refused. */
#include "face_test.h"

#include <string.h>

static void refused(const char *key, IfigPattern pattern, const char *word)
{
    Stone stone;
    IfigError error = IFIG_ERROR_INIT;
    stone_ready(&stone, key, pattern, 10, 3);
    ck_assert_msg(face_status(&stone, &error) == IFIG_ERROR_UNSUITABLE, "%s %d", key, pattern);
    ck_assert_ptr_nonnull(strstr(error.message, word));
    ck_assert_ptr_nonnull(strstr(error.message, "choose"));
    stone_gone(&stone);
}

START_TEST(a_pattern_that_a_stone_has_not_is_refused_with_a_remedy)
{
    refused("topaz_f", IFIG_PATTERN_SNAKE, "doubly refractive");
    refused("corundum", IFIG_PATTERN_BANDS, "doubly refractive");
    refused("chalcedony", IFIG_PATTERN_INCLUSION, "aggregate");
    refused("sodalite", IFIG_PATTERN_CROSS_HATCH, "sodalite");
    refused("glass", IFIG_PATTERN_TWINS, "glass");
    refused("corundum", IFIG_PATTERN_BRAZIL, "corundum");
    refused("quartz_synthetic", IFIG_PATTERN_BRAZIL, "synthetic");
    refused("diamond", IFIG_PATTERN_GRAINS, "diamond");
    refused("jadeite", IFIG_PATTERN_PLAIN, "aggregate");
}
END_TEST

START_TEST(the_usual_pattern_is_plain_or_grains)
{
    IfigTexture texture = IFIG_TEXTURE_INIT;
    ck_assert_int_eq(ifig_pattern_of(NULL, builtin("quartz")), IFIG_PATTERN_PLAIN);
    ck_assert_int_eq(ifig_pattern_of(&texture, builtin("glass")), IFIG_PATTERN_PLAIN);
    ck_assert_int_eq(ifig_pattern_of(&texture, builtin("jadeite")), IFIG_PATTERN_GRAINS);
    texture.pattern = IFIG_PATTERN_TWINS;
    ck_assert_int_eq(ifig_pattern_of(&texture, builtin("corundum")), IFIG_PATTERN_TWINS);
}
END_TEST

START_TEST(brazil_twins_need_the_optic_axis)
{
    Stone stone;
    IfigError error = IFIG_ERROR_INIT;
    stone_ready(&stone, "quartz", IFIG_PATTERN_BRAZIL, 0, 5);
    ck_assert_int_eq(face_status(&stone, &error), IFIG_OK);
    stone.layer.orientation.view = IFIG_VIEW_X;
    ck_assert_int_eq(face_status(&stone, &error), IFIG_ERROR_UNSUITABLE);
    ck_assert_ptr_nonnull(strstr(error.message, "optic axis"));
    stone_gone(&stone);
}
END_TEST

START_TEST(a_face_needs_one_layer_and_no_lens)
{
    Stone stone;
    IfigError error = IFIG_ERROR_INIT;
    stone_ready(&stone, "glass", IFIG_PATTERN_SNAKE, 10, 5);
    IfigLayer two[2] = {stone.layer, stone.layer};
    stone.scene.layers = two;
    stone.scene.layer_count = 2;
    ck_assert_int_eq(face_status(&stone, &error), IFIG_ERROR_UNSUITABLE);
    stone.scene.layer_count = 1;
    stone.scene.instrument.lens = IFIG_LENS_SPHERE;
    ck_assert_int_eq(face_status(&stone, &error), IFIG_ERROR_UNSUITABLE);
    ck_assert_ptr_nonnull(strstr(error.message, "lens"));
    stone.scene.instrument.lens = IFIG_LENS_NONE;
    stone.texture.size = 3;
    ck_assert_int_eq(face_status(&stone, &error), IFIG_ERROR_ARGUMENT);
    stone_gone(&stone);
}
END_TEST

START_TEST(numbers_out_of_range_are_refused)
{
    static const double bad[] = {NAN, INFINITY, -1.0, 1e9};
    for (int i = 0; i < 4; i++) {
        Stone stone;
        stone_ready(&stone, "glass", IFIG_PATTERN_SNAKE, 10, 5);
        stone.texture.width_mm = bad[i];
        ck_assert_int_eq(face_status(&stone, NULL), IFIG_ERROR_RANGE);
        stone.texture.width_mm = 8;
        stone.texture.grain_mm = bad[i];
        ck_assert_int_eq(face_status(&stone, NULL), IFIG_ERROR_RANGE);
        stone.texture.grain_mm = 0;
        stone.texture.stress_mpa = bad[i] * 20000;
        ck_assert_int_eq(face_status(&stone, NULL), IFIG_ERROR_RANGE);
        stone_gone(&stone);
    }
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("textures");
    tcase_add_test(facts, a_pattern_that_a_stone_has_not_is_refused_with_a_remedy);
    tcase_add_test(facts, the_usual_pattern_is_plain_or_grains);
    tcase_add_test(facts, brazil_twins_need_the_optic_axis);
    tcase_add_test(facts, a_face_needs_one_layer_and_no_lens);
    tcase_add_test(facts, numbers_out_of_range_are_refused);
    return run_case(facts, "polariscope textures");
}
