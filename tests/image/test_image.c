/* SPDX-License-Identifier: MIT */
#include "scratch.h"

#include <stdlib.h>

int main(void)
{
    Suite *const suite = suite_create("image");
    suite_add_tcase(suite, test_png_case());
    suite_add_tcase(suite, test_png_frames_case());
    suite_add_tcase(suite, test_place_case());
    suite_add_tcase(suite, test_trouble_case());
    suite_add_tcase(suite, test_png_text_case());
    suite_add_tcase(suite, test_text_file_case());
    SRunner *const runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    const int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
