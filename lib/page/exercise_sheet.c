/* SPDX-License-Identifier: MIT */
/* The pages of an exercise: four figures a page with room for the answers, or the answers. */
#include "exercise.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "plate.h"

/* mm. The sheet is what A4 and Letter have in common. */
static const double WIDTH = 210.0, HEIGHT = 279.0, MARGIN = 14.0, FOOT = 260.0;
static const double FIGURE = 47.0, ROW = 56.0, SMALL_FIGURE = 33.0, GAP = 8.0, NUMBER = 11.0;

typedef struct Pages {
    IfigCanvas *canvas;
    const IfigExercise *exercise;
    const IfigExerciseSheet *sheet;
    const char *title;
    int page;
} Pages;

static double bottom_of(IfigBox box)
{
    return box.y + box.height;
}

static IfigPageText number_text(double value, int digits)
{
    return ifig_page_say(IFIG_PAGE_SAY_WORD, ifig_number_text(value, digits).text, NULL);
}

/* A line to write on, with its word before it. */
static void draw_blank(IfigCanvas *canvas, const char *word, IfigPoint at, double end)
{
    const IfigTextStyle style = ifig_plate_body();
    const IfigPen pen = ifig_pen(IFIG_INK_AXIS, 0.2, IFIG_DASH_SOLID);
    double x = at.x;
    if (word != NULL) {
        const IfigBox box = ifig_canvas_passage(canvas, IFIG_ROLE_PARAGRAPH, &style, at, word);
        x = box.x + box.width + 2.0;
    }
    ifig_canvas_line(canvas, &pen, (IfigPoint){x, at.y + 4.0}, (IfigPoint){end, at.y + 4.0});
}

static double draw_head(const Pages *pages)
{
    IfigCanvas *const canvas = pages->canvas;
    IfigTextStyle title = ifig_plate_title(), given = ifig_plate_small();
    const IfigQuestion *const first = ifig_exercise_at(pages->exercise, 0);
    title.size_pt = 13.0;
    title.wrap_mm = WIDTH - 2.0 * MARGIN;
    given.wrap_mm = title.wrap_mm;
    double y = bottom_of(ifig_canvas_passage(canvas, IFIG_ROLE_TITLE, &title,
                                             (IfigPoint){MARGIN, MARGIN - 2.0}, pages->title)) +
               3.0;
    if (!pages->sheet->has_answers && pages->page == 1) {
        draw_blank(canvas, ifig_page_message(IFIG_PAGE_SAY_EXERCISE_NAME), (IfigPoint){MARGIN, y},
                   128.0);
        draw_blank(canvas, ifig_page_message(IFIG_PAGE_SAY_EXERCISE_DATE), (IfigPoint){136.0, y},
                   WIDTH - MARGIN);
        y += 7.5;
    }
    if (pages->page == 1) {
        y = bottom_of(ifig_canvas_passage(
            canvas, IFIG_ROLE_PARAGRAPH, &given, (IfigPoint){MARGIN, y},
            ifig_page_say(IFIG_PAGE_SAY_EXERCISE_GIVEN,
                          number_text(first->instrument.field_deg, 3).text, NULL)
                .text));
    }
    return y + 5.0;
}

static void draw_foot(const Pages *pages)
{
    IfigCanvas *const canvas = pages->canvas;
    const IfigPen thin = ifig_pen(IFIG_INK_GRID, 0.2, IFIG_DASH_SOLID);
    IfigTextStyle small = ifig_plate_small(), right = small;
    const double end = WIDTH - MARGIN, y = HEIGHT - 17.0;
    small.size_pt = right.size_pt = 6.5;
    small.wrap_mm = end - MARGIN - 12.0;
    right.align = IFIG_ALIGN_RIGHT;
    ifig_canvas_line(canvas, &thin, (IfigPoint){MARGIN, y - 1.0}, (IfigPoint){end, y - 1.0});
    ifig_canvas_passage(canvas, IFIG_ROLE_PARAGRAPH, &small, (IfigPoint){MARGIN, y},
                        ifig_page_message(IFIG_PAGE_SAY_EXERCISE_CAUTION));
    ifig_canvas_passage(canvas, IFIG_ROLE_PARAGRAPH, &right, (IfigPoint){end, y},
                        number_text(pages->page, 4).text);
}

static double begin_page(Pages *pages)
{
    if (pages->page++ > 0) {
        ifig_canvas_new_page(pages->canvas);
    }
    return draw_head(pages);
}

/* Polariser and analyser beside the rim, and the plate where one is in: what the student is told
 * about the instrument, nothing of the stone. */
static void draw_instrument(IfigCanvas *canvas, const IfigInstrument *instrument, IfigPoint centre,
                            double radius)
{
    const IfigPen pen = ifig_pen(IFIG_INK_TEXT, 0.3, IFIG_DASH_SOLID);
    const double from = radius + 0.8, to = radius + 2.6, half = 0.70710678;
    IfigTextStyle style = ifig_text_style(6.5, IFIG_INK_TEXT);
    style.align = IFIG_ALIGN_CENTRE;
    style.level = IFIG_LEVEL_MIDDLE;
    for (int i = 0; i < 4; i++) {
        const double x = i == 0 ? 1.0 : i == 2 ? -1.0 : 0.0, y = i == 1 ? -1.0 : i == 3 ? 1.0 : 0.0;
        ifig_canvas_line(canvas, &pen, (IfigPoint){centre.x + x * from, centre.y + y * from},
                         (IfigPoint){centre.x + x * to, centre.y + y * to});
    }
    ifig_canvas_text(canvas, &style, (IfigPoint){centre.x + to + 1.6, centre.y},
                     ifig_page_message(IFIG_PAGE_SAY_EXERCISE_POLARISER));
    ifig_canvas_text(canvas, &style, (IfigPoint){centre.x + 2.2, centre.y - to + 0.6},
                     ifig_page_message(IFIG_PAGE_SAY_EXERCISE_ANALYSER));
    if (instrument->plate.material != IFIG_PLATE_NONE) {
        const double side = instrument->plate.slow_azimuth_deg > 90.0 ? -1.0 : 1.0;
        const IfigPen arrow = ifig_pen(IFIG_INK_TEXT, 0.45, IFIG_DASH_SOLID);
        const double near = (radius + 1.0) * half, far = (radius + 8.0) * half;
        ifig_canvas_arrow(canvas, &arrow, (IfigPoint){centre.x + side * near, centre.y - near},
                          (IfigPoint){centre.x + side * far, centre.y - far}, 1);
        ifig_canvas_text(canvas, &style, (IfigPoint){centre.x + side * far, centre.y - far - 1.9},
                         ifig_page_message(IFIG_PAGE_SAY_EXERCISE_SLOW));
    }
}

/* One figure more is done. */
static void report(const Pages *pages, size_t index)
{
    IfigError error = IFIG_ERROR_INIT;
    if (pages->sheet->progress != NULL &&
        !pages->sheet->progress((double)(index + 1) / (double)ifig_exercise_count(pages->exercise),
                                pages->sheet->progress_context)) {
        ifig_fail(&error, IFIG_ERROR_CANCELLED, "the pages were cancelled");
        ifig_canvas_fail(pages->canvas, &error);
    }
}

static void draw_disc(const Pages *pages, size_t index, IfigBox box)
{
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    IfigError error = IFIG_ERROR_INIT;
    options.pixels = ifig_canvas_pixels(pages->canvas, box.width);
    options.threads = pages->sheet->threads;
    uint8_t *const rgb = malloc((size_t)3 * options.pixels * options.pixels);
    IfigStatus status =
        rgb != NULL ? ifig_exercise_picture(pages->exercise, index, &options, rgb, &error)
                    : ifig_fail(&error, IFIG_ERROR_MEMORY, "no memory for a figure; lower the dpi");
    if (status == IFIG_OK) {
        const IfigPicture picture = {rgb, options.pixels, options.pixels, 1};
        ifig_canvas_picture(pages->canvas, &picture, box);
    }
    if (status != IFIG_OK) {
        ifig_canvas_fail(pages->canvas, &error);
    }
    report(pages, index);
    free(rgb);
}

/* The answer's figure, with its labels. */
static void draw_labelled(const Pages *pages, size_t index, IfigBox box)
{
    const IfigQuestion *const question = ifig_exercise_at(pages->exercise, index);
    IfigReading reading = IFIG_READING_INIT;
    IfigError error = IFIG_ERROR_INIT;
    IfigScene scene = IFIG_SCENE_INIT;
    IfigStatus status = ifig_exercise_scene(pages->exercise, index, &scene, &error);
    if (status == IFIG_OK) {
        status = ifig_reading(&scene, &reading, &error);
    }
    if (status == IFIG_OK) {
        ifig_canvas_figure(pages->canvas, &scene, &reading, IFIG_LABELS_BASIC, 0.0, box,
                           question->reading);
    } else {
        ifig_canvas_fail(pages->canvas, &error);
    }
    report(pages, index);
}

/* The alternative tells no more than the page does. */
static void draw_figure(const Pages *pages, size_t index, IfigBox box)
{
    const IfigQuestion *const question = ifig_exercise_at(pages->exercise, index);
    const double radius = 0.5 * box.width;
    const IfigPageText words = ifig_page_say(IFIG_PAGE_SAY_EXERCISE_FIGURE_WORDS,
                                             number_text((double)index + 1.0, 4).text, NULL);
    if (pages->sheet->has_answers) {
        draw_labelled(pages, index, box);
        return;
    }
    ifig_canvas_begin(pages->canvas, IFIG_ROLE_FIGURE, words.text);
    draw_disc(pages, index, box);
    draw_instrument(pages->canvas, &question->instrument,
                    (IfigPoint){box.x + radius, box.y + radius}, radius);
    ifig_canvas_end(pages->canvas);
}

static void draw_number(IfigCanvas *canvas, size_t index, double y)
{
    IfigTextStyle style = ifig_plate_heading();
    style.size_pt = 12.0;
    ifig_canvas_passage(canvas, IFIG_ROLE_HEADING, &style, (IfigPoint){MARGIN, y},
                        number_text((double)index + 1.0, 4).text);
}

/* Boxes to tick, a letter each, or a blank for the number. */
static double draw_choices(IfigCanvas *canvas, const IfigQuestion *question, IfigPoint at)
{
    const IfigTextStyle style = ifig_text_style(9.0, IFIG_INK_TEXT);
    const IfigPen pen = ifig_pen(IFIG_INK_TEXT, 0.25, IFIG_DASH_SOLID);
    const double side = 3.2;
    if (question->choice_count == 0) {
        return bottom_of(ifig_canvas_passage(canvas, IFIG_ROLE_PARAGRAPH, &style,
                                             (IfigPoint){at.x, at.y + 1.5},
                                             ifig_page_message(IFIG_PAGE_SAY_EXERCISE_DEGREES)));
    }
    for (size_t i = 0; i < question->choice_count; i++) {
        ifig_canvas_rectangle(canvas, &pen, NULL, (IfigBox){at.x, at.y + 0.4, side, side});
        ifig_canvas_passage(canvas, IFIG_ROLE_PARAGRAPH, &style, (IfigPoint){at.x + 5.2, at.y},
                            question->choice[i]);
        at.y += 5.2;
    }
    return at.y;
}

static void draw_question(const Pages *pages, size_t index, double y)
{
    IfigCanvas *const canvas = pages->canvas;
    const IfigQuestion *const question = ifig_exercise_at(pages->exercise, index);
    const double x = MARGIN + NUMBER + FIGURE + GAP + 4.0, end = WIDTH - MARGIN;
    IfigTextStyle style = ifig_text_style(9.5, IFIG_INK_TEXT);
    style.wrap_mm = end - x;
    draw_number(canvas, index, y);
    draw_figure(pages, index, (IfigBox){MARGIN + NUMBER, y + 2.0, FIGURE, FIGURE});
    double below = bottom_of(ifig_canvas_passage(canvas, IFIG_ROLE_PARAGRAPH, &style,
                                                 (IfigPoint){x, y}, question->text));
    below = draw_choices(canvas, question, (IfigPoint){x, below + 2.0});
    const double why = fmax(below + 2.5, y + 36.0);
    draw_blank(canvas, ifig_page_message(IFIG_PAGE_SAY_EXERCISE_WHY), (IfigPoint){x, why}, end);
    draw_blank(canvas, NULL, (IfigPoint){x, why + 7.5}, end);
}

static void draw_questions(Pages *pages)
{
    double y = FOOT;
    for (size_t i = 0;
         i < ifig_exercise_count(pages->exercise) && ifig_canvas_status(pages->canvas) == IFIG_OK;
         i++) {
        if (y + ROW - 4.0 > FOOT) {
            if (i > 0) {
                draw_foot(pages);
            }
            y = begin_page(pages);
        }
        draw_question(pages, i, y);
        y += ROW;
    }
    draw_foot(pages);
}

typedef struct ReadingWords {
    char text[IFIG_READING_TEXT_MAX];
} ReadingWords;

/* The words of a reading without its caution, which stands at the foot of the page. */
static ReadingWords reading_words(const IfigQuestion *question)
{
    const char *const caution = ifig_page_message(IFIG_PAGE_SAY_EXERCISE_CAUTION);
    ReadingWords words;
    memcpy(words.text, question->reading, sizeof words.text);
    size_t length = strlen(words.text);
    if (length > 0 && words.text[length - 1] == '\n') {
        words.text[--length] = '\0';
    }
    char *const last = strrchr(words.text, '\n');
    if (last != NULL && strstr(caution, last + 1) != NULL) {
        *last = '\0';
    }
    return words;
}

/* One answer; draws only where is_drawn. Returns where it ends. */
static double lay_answer(const Pages *pages, size_t index, double y, int is_drawn)
{
    IfigCanvas *const canvas = pages->canvas;
    const IfigQuestion *const question = ifig_exercise_at(pages->exercise, index);
    const double x = MARGIN + NUMBER + SMALL_FIGURE + GAP + 3.0;
    const char *const recipe = pages->sheet->recipes != NULL ? pages->sheet->recipes[index] : NULL;
    const IfigPageText stone = ifig_page_say(
        IFIG_PAGE_SAY_EXERCISE_STONE, ifig_species_text(question->layer.species, IFIG_TEXT_NAME),
        ifig_number_text(question->layer.thickness_mm, 3).text);
    const ReadingWords reading = reading_words(question);
    IfigTextStyle style[5] = {ifig_text_style(8.0, IFIG_INK_MUTED), ifig_plate_heading(),
                              ifig_plate_body(), ifig_plate_body(), ifig_plate_small()};
    const char *const words[5] = {question->text, question->answer, stone.text, reading.text,
                                  recipe};
    const double top = y;
    style[1].size_pt = 10.5;
    style[3].size_pt = 7.5;
    style[4].size_pt = 6.0;
    if (is_drawn) {
        draw_number(canvas, index, y);
        draw_figure(pages, index, (IfigBox){MARGIN + NUMBER, y + 2.0, SMALL_FIGURE, SMALL_FIGURE});
    }
    for (int i = 0; i < 5; i++) {
        style[i].wrap_mm = WIDTH - MARGIN - x;
        if (words[i] != NULL && words[i][0] != '\0') {
            const IfigPoint at = {x, y};
            y = bottom_of(is_drawn ? ifig_canvas_passage(canvas, IFIG_ROLE_PARAGRAPH, &style[i], at,
                                                         words[i])
                                   : ifig_canvas_measure(canvas, &style[i], at, words[i])) +
                1.0;
        }
    }
    return fmax(y, top + SMALL_FIGURE + 4.0) + 4.0;
}

static void draw_answers(Pages *pages)
{
    double y = begin_page(pages);
    for (size_t i = 0;
         i < ifig_exercise_count(pages->exercise) && ifig_canvas_status(pages->canvas) == IFIG_OK;
         i++) {
        if (lay_answer(pages, i, y, 0) > FOOT + 3.0) {
            draw_foot(pages);
            y = begin_page(pages);
        }
        y = lay_answer(pages, i, y, 1);
    }
    draw_foot(pages);
}

static IfigStatus check(const char *path, const IfigPageOptions *options,
                        const IfigExercise *exercise, const IfigExerciseSheet *sheet,
                        IfigError *error)
{
    if (path == NULL || options == NULL || exercise == NULL || sheet == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the pages of an exercise were given a null pointer; give a path, "
                         "options, an exercise and a sheet");
    }
    if (options->size != sizeof *options || sheet->size != sizeof *sheet) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the options of an exercise's pages are of another version of the "
                         "library; initialise them with IFIG_PAGE_OPTIONS_INIT and "
                         "IFIG_EXERCISE_SHEET_INIT and compile against this version");
    }
    return IFIG_OK;
}

IfigStatus ifig_exercise_write(const char *path, const IfigPageOptions *options,
                               const IfigExercise *exercise, const IfigExerciseSheet *sheet,
                               IfigError *error)
{
    Pages pages = {.exercise = exercise, .sheet = sheet};
    IfigStatus status = check(path, options, exercise, sheet, error);
    if (status != IFIG_OK) {
        return status;
    }
    const IfigPageText own =
        ifig_page_say(IFIG_PAGE_SAY_EXERCISE_TITLE, number_text(exercise->level, 2).text, NULL);
    const IfigPageText answers = ifig_page_say(
        IFIG_PAGE_SAY_EXERCISE_ANSWERS_TITLE, sheet->title != NULL ? sheet->title : own.text, NULL);
    pages.title = sheet->has_answers     ? answers.text
                  : sheet->title != NULL ? sheet->title
                                         : own.text;
    const IfigSheet page = {WIDTH, HEIGHT, pages.title, NULL};
    status = ifig_canvas_open(path, options, &page, &pages.canvas, error);
    if (status != IFIG_OK) {
        return status;
    }
    if (sheet->has_answers) {
        draw_answers(&pages);
    } else {
        draw_questions(&pages);
    }
    return ifig_canvas_close(pages.canvas, error);
}
