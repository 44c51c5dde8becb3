/* SPDX-License-Identifier: MIT */
/* A canvas that is drawn on and thrown away: nothing of it reaches the disk. */
#ifndef IFIG_PAGE_TEST_H
#define IFIG_PAGE_TEST_H

#include <math.h>
#include <string.h>

#include "../run_case.h"
#include "leaks.h"
#include "page.h"

static inline IfigCanvas *open_canvas(IfigPageFormat format)
{
    const IfigSheet sheet = {100.0, 80.0, "A sheet of the tests", NULL};
    IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    IfigError error = IFIG_ERROR_INIT;
    IfigCanvas *canvas = NULL;
    options.format = format;
    ck_assert_msg(ifig_canvas_open("never-written", &options, &sheet, &canvas, &error) == IFIG_OK,
                  "%s", error.message);
    return canvas;
}

#endif
