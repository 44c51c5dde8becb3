/* SPDX-License-Identifier: MIT */
/* The frame of a plate: title, pictures, caption, caution; much white about them. */
#include "plate.h"

#include <stdlib.h>
#include <string.h>

IfigTextStyle ifig_plate_title(void)
{
    IfigTextStyle style = ifig_text_style(14.0, IFIG_INK_TEXT);
    style.is_bold = 1;
    style.wrap_mm = IFIG_PLATE_INNER;
    return style;
}

IfigTextStyle ifig_plate_heading(void)
{
    IfigTextStyle style = ifig_text_style(9.0, IFIG_INK_TEXT);
    style.is_bold = 1;
    return style;
}

IfigTextStyle ifig_plate_body(void)
{
    return ifig_text_style(8.5, IFIG_INK_TEXT);
}

IfigTextStyle ifig_plate_small(void)
{
    return ifig_text_style(7.0, IFIG_INK_MUTED);
}

static double bottom_of(IfigBox box)
{
    return box.y + box.height;
}

static double draw_head(IfigCanvas *canvas, const IfigPageWords *words)
{
    const IfigTextStyle title = ifig_plate_title();
    IfigTextStyle subtitle = ifig_text_style(8.5, IFIG_INK_MUTED);
    double y = bottom_of(
        ifig_canvas_passage(canvas, IFIG_ROLE_TITLE, &title,
                            (IfigPoint){IFIG_PLATE_MARGIN, IFIG_PLATE_MARGIN - 2.0}, words->title));
    if (words->subtitle != NULL) {
        subtitle.wrap_mm = IFIG_PLATE_INNER;
        y = bottom_of(ifig_canvas_passage(canvas, IFIG_ROLE_PARAGRAPH, &subtitle,
                                          (IfigPoint){IFIG_PLATE_MARGIN, y + 1.0},
                                          words->subtitle));
    }
    return y;
}

/* Each sentence a paragraph, so that a wrapped line is not taken for the next sentence. */
static double draw_sentences(IfigCanvas *canvas, const IfigTextStyle *style, const char *text,
                             double y)
{
    const double gap = 2.0;
    while (*text != '\0') {
        const size_t length = strcspn(text, "\n");
        char *const sentence = strndup(text, length);
        if (sentence == NULL) {
            IfigError error = IFIG_ERROR_INIT;
            ifig_fail(&error, IFIG_ERROR_MEMORY, "no memory for a page; close programs");
            ifig_canvas_fail(canvas, &error);
            return y;
        }
        if (length > 0) {
            y = bottom_of(ifig_canvas_passage(canvas, IFIG_ROLE_PARAGRAPH, style,
                                              (IfigPoint){IFIG_PLATE_MARGIN, y}, sentence)) +
                gap;
        }
        free(sentence);
        text += length + (text[length] == '\n');
    }
    return y - gap;
}

/* Lines of a caption are as long as a reader's eye follows with ease, not as wide as the sheet. */
static double draw_foot(IfigCanvas *canvas, const IfigPageWords *words, double y)
{
    IfigTextStyle body = ifig_plate_body(), small = ifig_plate_small();
    if (words->caption != NULL) {
        body.wrap_mm = 0.86 * IFIG_PLATE_INNER;
        y = draw_sentences(canvas, &body, words->caption, y + 6.0);
    }
    if (words->caution != NULL) {
        const IfigPen thin = ifig_pen(IFIG_INK_GRID, 0.2, IFIG_DASH_SOLID);
        small.wrap_mm = IFIG_PLATE_INNER;
        ifig_canvas_line(canvas, &thin, (IfigPoint){IFIG_PLATE_MARGIN, y + 5.0},
                         (IfigPoint){IFIG_PLATE_WIDTH - IFIG_PLATE_MARGIN, y + 5.0});
        y = bottom_of(ifig_canvas_passage(canvas, IFIG_ROLE_PARAGRAPH, &small,
                                          (IfigPoint){IFIG_PLATE_MARGIN, y + 6.5}, words->caution));
    }
    return y + IFIG_PLATE_MARGIN - 2.0;
}

static double draw_all(IfigCanvas *canvas, const IfigPlateSheet *plate)
{
    const double y = draw_head(canvas, plate->words);
    return draw_foot(canvas, plate->words, plate->draw(canvas, plate->what, y + 8.0));
}

/* How high a plate is, by drawing it on a sheet that is thrown away. */
static IfigStatus measure(const IfigPlateSheet *plate, double *height, IfigError *error)
{
    const IfigSheet trial_sheet = {IFIG_PLATE_WIDTH, 2000.0, plate->words->title, NULL};
    IfigPageOptions trial_options = *plate->options;
    IfigCanvas *trial = NULL;
    trial_options.format = IFIG_PAGE_SVG;
    IfigStatus status = ifig_canvas_open(plate->path, &trial_options, &trial_sheet, &trial, error);
    if (status == IFIG_OK) {
        *height = draw_all(trial, plate);
        status = ifig_canvas_status(trial);
        if (status != IFIG_OK) {
            return ifig_canvas_close(trial, error); /* tells what it was */
        }
        ifig_canvas_discard(trial);
    }
    return status;
}

IfigStatus ifig_plate_check(const IfigPlateSheet *plate, IfigError *error)
{
    if (plate->path == NULL || plate->options == NULL || plate->words == NULL ||
        plate->what == NULL || plate->words->title == NULL) {
        return ifig_fail(
            error, IFIG_ERROR_ARGUMENT,
            "a plate was given a null pointer; give a path, options, what to draw, and "
            "words with a title");
    }
    if (plate->options->size != sizeof *plate->options) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the page options are of another version of the library; initialise them "
                         "with IFIG_PAGE_OPTIONS_INIT and compile against this version");
    }
    if (plate->words->size != sizeof *plate->words) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the page words are of another version of the library; initialise them "
                         "with IFIG_PAGE_WORDS_INIT and compile against this version");
    }
    return IFIG_OK;
}

IfigStatus ifig_plate_write(const IfigPlateSheet *plate, IfigError *error)
{
    IfigSheet sheet = {IFIG_PLATE_WIDTH, 0.0, NULL, NULL};
    IfigCanvas *canvas = NULL;
    IfigStatus status = ifig_plate_check(plate, error);
    if (status == IFIG_OK) {
        status = measure(plate, &sheet.height_mm, error);
    }
    if (status == IFIG_OK) {
        sheet.title = plate->words->title;
        sheet.description = plate->words->caption;
        status = ifig_canvas_open(plate->path, plate->options, &sheet, &canvas, error);
    }
    if (status == IFIG_OK) {
        draw_all(canvas, plate);
        status = ifig_canvas_close(canvas, error);
    }
    return status;
}
