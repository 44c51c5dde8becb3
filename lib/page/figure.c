/* SPDX-License-Identifier: MIT */
/* The sheet of one figure: the figure, a key to its labels beside it, and the reading below. */
#include "figure_plate.h"
#include "plate.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double GAP = 8.0, KEY_LEAST = 48.0;

/* The key's words stand in a column of their own, the label's name before them. */
static double draw_key(IfigCanvas *canvas, unsigned long long keys, const IfigReading *reading,
                       IfigPoint at, double width)
{
    const IfigTextStyle heading = ifig_plate_heading();
    IfigTextStyle style = ifig_text_style(7.8, IFIG_INK_TEXT);
    style.is_markup = 1;
    style.wrap_mm = width;
    const IfigBox head = ifig_canvas_passage(canvas, IFIG_ROLE_HEADING, &heading, at,
                                             ifig_page_message(IFIG_PAGE_SAY_KEY));
    double y = head.y + head.height + 2.0;
    const char *const line =
        reading != NULL ? ifig_number_text(reading->wavelength_nm, 4).text : NULL;
    for (int key = IFIG_PAGE_SAY_KEY_FIRST; key <= IFIG_PAGE_SAY_KEY_LAST; key++) {
        if ((keys >> (unsigned)(key - IFIG_PAGE_SAY_KEY_FIRST) & 1ULL) != 0) {
            const IfigBox box =
                ifig_canvas_passage(canvas, IFIG_ROLE_PARAGRAPH, &style, (IfigPoint){at.x, y},
                                    ifig_page_say((IfigPageMessage)key, line, NULL).text);
            y = box.y + box.height + 1.6;
        }
    }
    return y;
}

typedef struct Sheet {
    IfigFigurePlate plate;
    double width;
} Sheet;

static double draw(IfigCanvas *canvas, const void *what, double y)
{
    const Sheet *const sheet = what;
    const int has_key = sheet->plate.labels != IFIG_LABELS_NONE;
    const int is_beside = has_key && sheet->width + GAP + KEY_LEAST <= IFIG_PLATE_INNER;
    const double left = is_beside ? IFIG_PLATE_MARGIN : 0.5 * (IFIG_PLATE_WIDTH - sheet->width);
    const double bottom = y + sheet->width;
    const unsigned long long keys = ifig_figure_plate_draw(
        canvas, &sheet->plate, (IfigBox){left, y, sheet->width, sheet->width}, NULL);
    if (!has_key) {
        return bottom;
    }
    const IfigPoint beside = {left + sheet->width + GAP, y};
    const IfigPoint below = {IFIG_PLATE_MARGIN, bottom + 5.0};
    const double width =
        is_beside ? IFIG_PLATE_WIDTH - IFIG_PLATE_MARGIN - beside.x : IFIG_PLATE_INNER;
    return fmax(bottom,
                draw_key(canvas, keys, sheet->plate.reading, is_beside ? beside : below, width));
}

static IfigStatus write_alone(const char *path, const IfigPageOptions *options, const Sheet *sheet,
                              const IfigPageWords *words, IfigError *error)
{
    const IfigSheet square = {sheet->width, sheet->width, words->title, words->caption};
    IfigCanvas *canvas = NULL;
    const IfigStatus status = ifig_canvas_open(path, options, &square, &canvas, error);
    if (status != IFIG_OK) {
        return status;
    }
    ifig_figure_plate_draw(canvas, &sheet->plate, ifig_canvas_box(canvas), NULL);
    return ifig_canvas_close(canvas, error);
}

/* All that can be told before the figure is rendered. */
static IfigStatus check(const char *path, const IfigPageOptions *options,
                        const IfigLabelledFigure *figure, const IfigPageWords *words,
                        IfigError *error)
{
    static const double least_mm = 20.0, alone_mm = 500.0;
    if (options == NULL || figure == NULL || words == NULL || figure->scene == NULL ||
        words->title == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_page_figure was given a null pointer; give options, a figure with "
                         "its scene, and words with a title");
    }
    if (figure->size != sizeof *figure) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the labelled figure is of another version of the library; initialise it "
                         "with IFIG_LABELLED_FIGURE_INIT and compile against this version");
    }
    if ((int)figure->labels < 0 || figure->labels > IFIG_LABELS_FULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the labels are none of IfigLabels; choose NONE, BASIC or FULL");
    }
    const IfigPlateSheet plate = {path, options, words, draw, figure};
    IfigPageFormat format = IFIG_PAGE_BY_NAME;
    IfigStatus status = ifig_plate_check(&plate, error);
    if (status == IFIG_OK) {
        status = ifig_canvas_check(path, options, &format, error);
    }
    return status == IFIG_OK
               ? ifig_check_range("the width of a figure on a sheet", figure->width_mm, least_mm,
                                  figure->is_alone ? alone_mm : IFIG_PLATE_INNER, "mm", error)
               : status;
}

/* The caption: the caller's, or the reading, or why there is none. */
static IfigStatus read(const IfigLabelledFigure *figure, IfigReading *reading, int *is_read,
                       char text[IFIG_READING_TEXT_MAX], IfigError *error)
{
    IfigError refusal = IFIG_ERROR_INIT;
    const IfigStatus status = ifig_reading(figure->scene, reading, &refusal);
    *is_read = status == IFIG_OK;
    if (status == IFIG_OK) {
        return ifig_reading_describe(reading, text, IFIG_READING_TEXT_MAX, error);
    }
    if (status == IFIG_ERROR_UNSUITABLE) {
        snprintf(text, IFIG_READING_TEXT_MAX, "%s\n",
                 ifig_page_say(IFIG_PAGE_SAY_NOT_READ, refusal.message, NULL).text);
        return IFIG_OK;
    }
    return ifig_fail(error, status, "%s", refusal.message);
}

static void cut_last_line(char *text)
{
    char *end = strrchr(text, '\n');
    if (end != NULL && end != text) {
        *end = '\0';
        end = strrchr(text, '\n');
    }
    if (end != NULL) {
        end[1] = '\0';
    }
}

IfigStatus ifig_page_figure(const char *path, const IfigPageOptions *options,
                            const IfigLabelledFigure *figure, const IfigPageWords *words,
                            IfigError *error)
{
    IfigReading reading = IFIG_READING_INIT;
    char text[IFIG_READING_TEXT_MAX];
    int is_read = 0;
    IfigStatus status = check(path, options, figure, words, error);
    if (status == IFIG_OK) {
        status = read(figure, &reading, &is_read, text, error);
    }
    if (status != IFIG_OK) {
        return status;
    }
    IfigPageWords said = *words;
    Sheet sheet = {{.scene = figure->scene,
                    .reading = is_read ? &reading : NULL,
                    .labels = figure->labels,
                    .options = figure->options},
                   figure->width_mm};
    const IfigBox box = {0.0, 0.0, figure->width_mm, figure->width_mm};
    const double radius = ifig_figure_frame(box, figure->labels).radius;
    const double diameter = radius > 0.0 ? 2.0 * radius : figure->width_mm;
    if (words->caution != NULL && is_read) {
        cut_last_line(text); /* the reading's own caution */
    }
    said.caption = words->caption != NULL ? words->caption : text;
    status = ifig_figure_plate_render(&sheet.plate,
                                      (uint32_t)lround(diameter * options->dpi / 25.4), error);
    if (status == IFIG_OK) {
        const IfigPlateSheet plate = {path, options, &said, draw, &sheet};
        status = figure->is_alone ? write_alone(path, options, &sheet, &said, error)
                                  : ifig_plate_write(&plate, error);
    }
    ifig_figure_plate_free(&sheet.plate);
    return status;
}
