/* SPDX-License-Identifier: MIT */
/* Draw a sample of everything on two pages: page_sample FILE [again], where "again" draws it into
 * memory once before. Exit status: that of the library; its message on standard error. */
#include "leaks.h"
#include "page.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SIDE = 200 }; /* pixels over 25.4 mm at 200 dpi */

static void draw_picture(IfigCanvas *canvas)
{
    static uint8_t rgb[SIDE * SIDE * 3];
    for (int i = 0; i < SIDE * SIDE; i++) {
        rgb[3 * i] = (uint8_t)(i % SIDE);
        rgb[3 * i + 1] = (uint8_t)(i / SIDE);
        rgb[3 * i + 2] = (uint8_t)(100 + 100 * (i % 2));
    }
    const IfigPicture picture = {rgb, SIDE, SIDE, 0};
    ifig_canvas_begin(canvas, IFIG_ROLE_FIGURE, "Stripes of the tests, \xce\xb2");
    ifig_canvas_picture(canvas, &picture, (IfigBox){50.8, 50.8, 25.4, 25.4});
    ifig_canvas_end(canvas);
}

static void draw_plot(IfigCanvas *canvas)
{
    double x[91], y[91];
    for (int i = 0; i < 91; i++) {
        x[i] = 4.0 * i;
        y[i] = pow(sin(2.0 * x[i] * IFIG_DEGREE), 2.0);
    }
    const IfigPlot plot = {{100.0, 30.0, 50.0, 30.0},
                           {0.0, 360.0, 90.0, "turn (deg)"},
                           {0.0, 1.0, 0.0, "brightness"},
                           1};
    const IfigPen pen = ifig_pen(IFIG_INK_BLUE, 0.5, IFIG_DASH_LONG);
    ifig_canvas_begin(canvas, IFIG_ROLE_FIGURE, "Brightness against turn");
    ifig_plot_axes(canvas, &plot);
    ifig_plot_curve(canvas, &plot, &pen, x, y, 91);
    ifig_canvas_end(canvas);
}

static IfigStatus draw(const char *path, int is_kept, IfigError *error)
{
    static const IfigImageText text[] = {{"Recipe", "figure quartz --stage 45 <&>"}};
    const IfigSheet sheet = {160.0, 120.0, "Quartz & \xce\xb2", "A sheet of the tests <1>"};
    IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    IfigCanvas *canvas = NULL;
    options.text = text;
    options.text_count = 1;
    if (ifig_canvas_open(path, &options, &sheet, &canvas, error) != IFIG_OK) {
        return error->status;
    }
    IfigTextStyle title = ifig_text_style(14.0, IFIG_INK_TEXT),
                  words = ifig_text_style(8.5, IFIG_INK_TEXT);
    title.is_bold = 1;
    words.wrap_mm = 60.0;
    ifig_canvas_passage(canvas, IFIG_ROLE_TITLE, &title, (IfigPoint){10.0, 8.0}, "Quartz");
    ifig_canvas_passage(canvas, IFIG_ROLE_PARAGRAPH, &words, (IfigPoint){10.0, 18.0},
                        "Turn the stone through a whole circle: it goes dark four times, "
                        "\xce\xb1 to \xce\xb3.");
    draw_picture(canvas);
    draw_plot(canvas);
    const IfigInk blue = ifig_ink(IFIG_INK_BLUE);
    ifig_canvas_rectangle(canvas, NULL, &blue, (IfigBox){10.16, 50.8, 25.4, 25.4});
    ifig_canvas_new_page(canvas);
    ifig_canvas_passage(canvas, IFIG_ROLE_HEADING, &title, (IfigPoint){10.0, 8.0}, "Answers");
    if (is_kept) {
        return ifig_canvas_close(canvas, error);
    }
    ifig_canvas_discard(canvas);
    return IFIG_OK;
}

int main(int count, char **arguments)
{
    IfigError error = IFIG_ERROR_INIT;
    if (count < 2) {
        return EXIT_FAILURE;
    }
    if (count > 2) {
        draw(arguments[1], 0, &error);
    }
    const IfigStatus status = draw(arguments[1], 1, &error);
    if (status != IFIG_OK) {
        fprintf(stderr, "%s\n", error.message);
    }
    return (int)status;
}
