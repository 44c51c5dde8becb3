/* SPDX-License-Identifier: MIT */
/* One item of a handout: heading, circles side by side, words. In a single column the words stand
 * beside the circles where there is room, as in a book. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "sheet.h"

static const double PIECE_GAP = 5.0, NAME_HEIGHT = 4.6, TEXT_GAP = 3.0, FIRST_PITCH = 6.5,
                    LINE_PITCH = 8.0;
static const double BESIDE_GAP = 9.0, BESIDE_LEAST = 48.0;

static IfigTextStyle heading_style(const IfigSheets *sheets)
{
    IfigTextStyle style = ifig_text_style(10.0, IFIG_INK_TEXT);
    style.is_bold = 1;
    style.wrap_mm = sheets->column;
    return style;
}

static IfigTextStyle setting_style(const IfigSheets *sheets)
{
    IfigTextStyle style = ifig_text_style(7.5, IFIG_INK_MUTED);
    style.wrap_mm = sheets->column;
    return style;
}

size_t ifig_sheet_pieces(const IfigPageItem *item)
{
    return (size_t)1 + (item->photo.path != NULL ? 1 : 0) + (item->has_sketch ? 1 : 0);
}

double ifig_sheet_diameter(const IfigSheets *sheets, size_t i)
{
    static const double largest[] = {0.0, 74.0, 66.0, 55.0, 41.0};
    const size_t pieces = ifig_sheet_pieces(&sheets->recipe->items[i]);
    const double room = sheets->column - PIECE_GAP * (double)(pieces - 1);
    const double alone =
        sheets->recipe->columns == 1 && pieces == 2 ? 62.0 : largest[sheets->recipe->columns];
    return fmin(alone, room / (double)pieces);
}

static double pieces_width(const IfigSheets *sheets, size_t i)
{
    const double pieces = (double)ifig_sheet_pieces(&sheets->recipe->items[i]);
    return pieces * sheets->diameter + (pieces - 1.0) * PIECE_GAP;
}

static double heading(IfigSheets *sheets, size_t i, IfigPoint at)
{
    const IfigTextStyle title = heading_style(sheets), setting = setting_style(sheets);
    double height =
        ifig_sheet_text(sheets, IFIG_ROLE_HEADING, &title, at, ifig_sheet_title(sheets, i));
    if (sheets->scenes[i].description != NULL) {
        height += 0.3;
        height += ifig_sheet_text(sheets, IFIG_ROLE_PARAGRAPH, &setting,
                                  (IfigPoint){at.x, at.y + height}, sheets->scenes[i].description);
    }
    return height + 2.2;
}

double ifig_sheet_head_height(IfigSheets *sheets, size_t i)
{
    const int is_trial = sheets->is_trial;
    sheets->is_trial = 1;
    const double height = heading(sheets, i, (IfigPoint){0.0, 0.0});
    sheets->is_trial = is_trial;
    return height;
}

static IfigStatus render_face(const IfigPageScene *scene, const IfigFigureOptions *options,
                              uint8_t *rgb, IfigError *error)
{
    const IfigTexture plain = IFIG_TEXTURE_INIT;
    IfigFace *face = NULL;
    IfigStatus status = ifig_face_create(
        scene->scene, scene->texture != NULL ? scene->texture : &plain, options, &face, error);
    if (status == IFIG_OK) {
        status = ifig_face_render(face, IFIG_PIXELS_SRGB8, 0, options->pixels, rgb, error);
    }
    ifig_face_free(face);
    return status;
}

/* A disc of pixels with its rim. */
static void draw_disc(IfigSheets *sheets, const uint8_t *rgb, uint32_t pixels, IfigBox box,
                      const char *words)
{
    const IfigPen rim = ifig_pen(IFIG_INK_AXIS, 0.15, IFIG_DASH_SOLID);
    const IfigPicture picture = {rgb, pixels, pixels, 1};
    ifig_canvas_begin(sheets->canvas, IFIG_ROLE_FIGURE, words);
    ifig_canvas_picture(sheets->canvas, &picture, box);
    ifig_canvas_circle(sheets->canvas, &rim, NULL,
                       (IfigPoint){box.x + 0.5 * box.width, box.y + 0.5 * box.height},
                       0.5 * box.width);
    ifig_canvas_end(sheets->canvas);
}

static uint8_t *disc_memory(IfigSheets *sheets, uint32_t pixels)
{
    uint8_t *const rgb = malloc((size_t)3 * pixels * pixels);
    if (rgb == NULL) {
        IfigError error = IFIG_ERROR_INIT;
        ifig_fail(&error, IFIG_ERROR_MEMORY,
                  "no memory for a picture of %u pixels a side; lower "
                  "the resolution",
                  pixels);
        ifig_canvas_fail(sheets->canvas, &error);
    }
    return rgb;
}

static void draw_face(IfigSheets *sheets, size_t i, IfigBox box)
{
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigError error = IFIG_ERROR_INIT;
    const IfigPageScene *const scene = &sheets->scenes[i];
    options.pixels = ifig_canvas_pixels(sheets->canvas, box.width);
    options.exposure_stops = scene->exposure_stops;
    uint8_t *const rgb = disc_memory(sheets, options.pixels);
    if (rgb != NULL && render_face(scene, &options, rgb, &error) == IFIG_OK) {
        draw_disc(sheets, rgb, options.pixels, box,
                  ifig_page_say(IFIG_PAGE_SAY_SHEET_FACE_WORDS, ifig_sheet_title(sheets, i),
                                scene->description)
                      .text);
    } else if (rgb != NULL) {
        ifig_canvas_fail(sheets->canvas, &error);
    }
    free(rgb);
}

static void draw_expected(IfigSheets *sheets, size_t i, IfigBox box)
{
    const IfigPageItem *const item = &sheets->recipe->items[i];
    const IfigPageScene *const scene = &sheets->scenes[i];
    const IfigPageText words = ifig_page_say(IFIG_PAGE_SAY_SHEET_SCENE_WORDS,
                                             ifig_sheet_title(sheets, i), scene->description);
    const IfigSheetItem *const found = &sheets->items[i];
    if (item->show == IFIG_PAGE_SHOW_FACE) {
        draw_face(sheets, i, box);
        return;
    }
    /* Where the student is to say what is seen, the words for a screen reader do not say it. */
    const int tells = item->observe_count == 0 && item->has_sketch == 0 && found->has_reading;
    ifig_canvas_figure(sheets->canvas, scene->scene, found->has_reading ? &found->reading : NULL,
                       item->labels, scene->exposure_stops, box, tells ? NULL : words.text);
}

static void draw_photo(IfigSheets *sheets, size_t i, IfigBox box)
{
    const double most_dpi = 300.0;
    const IfigSheetItem *const found = &sheets->items[i];
    const double scale = fmin(1.0, most_dpi / sheets->options->dpi);
    const int is_raster = scale < 1.0 && ifig_canvas_is_raster(sheets->canvas);
    const double wanted = ifig_canvas_pixels(sheets->canvas, box.width);
    const uint32_t pixels = (uint32_t)fmax(1.0, round(is_raster ? wanted : wanted * scale));
    uint8_t *const rgb = disc_memory(sheets, pixels);
    if (rgb != NULL) {
        ifig_photo_disc(&found->photo, &found->circle, sheets->recipe->items[i].photo.turn_deg,
                        pixels, rgb);
        draw_disc(
            sheets, rgb, pixels, box,
            ifig_page_say(IFIG_PAGE_SAY_SHEET_PHOTO_WORDS, ifig_sheet_title(sheets, i), NULL).text);
    }
    free(rgb);
}

/* Two thin lines for the polars: a sketch is drawn about them. */
static void draw_sketch(IfigSheets *sheets, size_t i, IfigBox box)
{
    const IfigPen rim = ifig_pen(IFIG_INK_MUTED, 0.35, IFIG_DASH_SOLID);
    const IfigPen cross = ifig_pen(IFIG_INK_GRID, 0.2, IFIG_DASH_DOT);
    const double radius = 0.5 * box.width;
    const IfigPoint centre = {box.x + radius, box.y + radius};
    ifig_canvas_begin(
        sheets->canvas, IFIG_ROLE_FIGURE,
        ifig_page_say(IFIG_PAGE_SAY_SHEET_SKETCH_WORDS, ifig_sheet_title(sheets, i), NULL).text);
    ifig_canvas_line(sheets->canvas, &cross, (IfigPoint){box.x, centre.y},
                     (IfigPoint){box.x + box.width, centre.y});
    ifig_canvas_line(sheets->canvas, &cross, (IfigPoint){centre.x, box.y},
                     (IfigPoint){centre.x, box.y + box.height});
    ifig_canvas_circle(sheets->canvas, &rim, NULL, centre, radius);
    ifig_canvas_end(sheets->canvas);
}

typedef void Drawer(IfigSheets *sheets, size_t i, IfigBox box);

/* The circles from left to right, with their names where there are several; returns the height. */
static double draw_pieces(IfigSheets *sheets, size_t i, IfigPoint corner)
{
    const IfigPageItem *const item = &sheets->recipe->items[i];
    const size_t count = ifig_sheet_pieces(item);
    Drawer *const drawers[] = {draw_expected, draw_photo, draw_sketch};
    const int is_there[] = {1, item->photo.path != NULL, item->has_sketch};
    const IfigPageMessage names[] = {IFIG_PAGE_SAY_SHEET_COMPUTED, IFIG_PAGE_SAY_SHEET_PHOTO,
                                     IFIG_PAGE_SAY_SHEET_SKETCH};
    IfigBox box = {corner.x, corner.y, sheets->diameter, sheets->diameter};
    const IfigFigureFrame frame = ifig_figure_frame(box, item->labels);
    IfigTextStyle name = ifig_text_style(7.0, IFIG_INK_MUTED);
    name.align = IFIG_ALIGN_CENTRE;
    for (int piece = 0; piece < 3; piece++) {
        if (!is_there[piece]) {
            continue;
        }
        if (!sheets->is_trial) {
            const IfigBox disc = {box.x + frame.centre.x - corner.x - frame.radius,
                                  frame.centre.y - frame.radius, 2.0 * frame.radius,
                                  2.0 * frame.radius};
            ifig_sheet_take(sheets, box, "a picture");
            drawers[piece](sheets, i, piece == 0 ? box : disc); /* all at one scale */
        }
        if (count > 1) {
            ifig_sheet_text(sheets, IFIG_ROLE_CAPTION, &name,
                            (IfigPoint){box.x + 0.5 * box.width, box.y + box.height + 1.0},
                            ifig_page_message(names[piece]));
        }
        box.x += box.width + PIECE_GAP;
    }
    return sheets->diameter + (count > 1 ? NAME_HEIGHT : 0.0);
}

/* A word and a line to write on. */
static void draw_field(IfigSheets *sheets, const char *word, IfigPoint at, double width)
{
    const IfigPen line = ifig_pen(IFIG_INK_AXIS, 0.2, IFIG_DASH_SOLID);
    IfigTextStyle style = ifig_text_style(8.5, IFIG_INK_TEXT);
    style.level = IFIG_LEVEL_BASELINE;
    if (sheets->is_trial) {
        return;
    }
    const double least_line = 12.0;
    ifig_canvas_begin(sheets->canvas, IFIG_ROLE_PARAGRAPH, NULL);
    const IfigBox box = ifig_canvas_text(sheets->canvas, &style, at, word);
    if (box.width + least_line > width) {
        IfigError error = IFIG_ERROR_INIT;
        ifig_fail(&error, IFIG_ERROR_UNSUITABLE,
                  "observe: '%s' leaves no line to write on, it is %s mm too wide for its column; "
                  "shorten it",
                  ifig_word_text(word).text,
                  ifig_number_text(round(10.0 * (box.width + least_line - width)) / 10.0, 5).text);
        ifig_canvas_fail(sheets->canvas, &error);
    }
    ifig_canvas_line(sheets->canvas, &line, (IfigPoint){at.x + box.width + 1.5, at.y + 0.6},
                     (IfigPoint){at.x + width, at.y + 0.6});
    ifig_canvas_end(sheets->canvas);
    ifig_sheet_take(sheets, (IfigBox){at.x, box.y, width, box.height}, word);
}

/* Caption, reading and lines to fill in, from a corner down; returns the height. */
static double draw_words(IfigSheets *sheets, size_t i, IfigPoint at, double width)
{
    const IfigPageItem *const item = &sheets->recipe->items[i];
    const IfigSheetItem *const found = &sheets->items[i];
    IfigTextStyle caption = ifig_text_style(8.5, IFIG_INK_TEXT);
    IfigTextStyle reading = ifig_text_style(7.5, IFIG_INK_MUTED);
    const char *const texts[2] = {item->caption != NULL ? item->caption : found->caption,
                                  found->words};
    const IfigTextStyle *const styles[2] = {&caption, &reading};
    double y = 0.0;
    caption.wrap_mm = reading.wrap_mm = width;
    for (int k = 0; k < 2; k++) {
        if (texts[k] != NULL) {
            y += y > 0.0 ? 1.6 : 0.0;
            y += ifig_sheet_text(sheets, k == 0 ? IFIG_ROLE_CAPTION : IFIG_ROLE_PARAGRAPH,
                                 styles[k], (IfigPoint){at.x, at.y + y}, texts[k]);
        }
    }
    for (size_t k = 0; k < item->observe_count; k++) {
        y += k == 0 ? FIRST_PITCH : LINE_PITCH;
        draw_field(sheets, item->observe[k], (IfigPoint){at.x, at.y + y}, width);
    }
    return y + (item->observe_count > 0 ? 1.4 : 0.0);
}

static int has_words(const IfigSheets *sheets, size_t i)
{
    const IfigPageItem *const item = &sheets->recipe->items[i];
    return item->caption != NULL || sheets->items[i].caption != NULL ||
           sheets->items[i].words != NULL || item->observe_count > 0;
}

double ifig_sheet_item(IfigSheets *sheets, size_t i, IfigPoint corner, double head)
{
    const double pieces = pieces_width(sheets, i);
    const double beside = sheets->column - pieces - BESIDE_GAP;
    const int stands_beside = sheets->recipe->columns == 1 && beside >= BESIDE_LEAST;
    heading(sheets, i, corner);
    const double circles = draw_pieces(sheets, i, (IfigPoint){corner.x, corner.y + head});
    if (!has_words(sheets, i)) {
        return head + circles;
    }
    if (stands_beside) {
        const IfigPoint at = {corner.x + pieces + BESIDE_GAP, corner.y + head};
        return head + fmax(circles, draw_words(sheets, i, at, beside));
    }
    const double below =
        head + circles + (ifig_sheet_pieces(&sheets->recipe->items[i]) > 1 ? 1.0 : TEXT_GAP);
    return below + draw_words(sheets, i, (IfigPoint){corner.x, corner.y + below}, sheets->column);
}
