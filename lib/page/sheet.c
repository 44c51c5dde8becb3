/* SPDX-License-Identifier: MIT */
/* The sheets of a recipe: readings and photos first, then a trial that measures all and says what
 * does not fit, then the drawing. */
#include "sheet.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "image.h"

static const double ROW_GAP = 6.0;

const char *ifig_sheet_title(const IfigSheets *sheets, size_t item)
{
    const char *const own = sheets->recipe->items[item].title;
    const char *const name = sheets->scenes[item].name;
    return own != NULL ? own : name != NULL ? name : "";
}

void ifig_sheet_take(IfigSheets *sheets, IfigBox box, const char *what)
{
    const IfigBox inside = ifig_box_grown(box, -0.05); /* what touches does not overlap */
    IfigError error = IFIG_ERROR_INIT;
    const double right = box.x + box.width, low = box.y + box.height;
    int is_free = right <= sheets->width - 9.9 && low <= sheets->height - 9.9 && box.x >= 9.9;
    for (size_t i = 0; i < sheets->box_count; i++) {
        is_free &= !ifig_box_overlap(sheets->boxes[i], inside);
    }
    if (!is_free || sheets->box_count == IFIG_SHEET_BOXES_MAX) {
        ifig_fail(&error, IFIG_ERROR_UNSUITABLE,
                  "'%s' on page %u has no room of its own; shorten the words there, or give the "
                  "recipe fewer columns",
                  ifig_word_text(what).text, sheets->page);
        ifig_canvas_fail(sheets->canvas, &error);
        return;
    }
    sheets->boxes[sheets->box_count++] = inside;
}

double ifig_sheet_text(IfigSheets *sheets, IfigRole role, const IfigTextStyle *style, IfigPoint at,
                       const char *text)
{
    if (sheets->is_trial) {
        return ifig_canvas_measure(sheets->canvas, style, at, text).height;
    }
    const IfigBox box = ifig_canvas_passage(sheets->canvas, role, style, at, text);
    ifig_sheet_take(sheets, box, text);
    return box.height;
}

/* What does not fit, and by how much. */
static void fail_room(IfigSheets *sheets, size_t i, double needed, double room, const char *remedy)
{
    IfigError error = IFIG_ERROR_INIT;
    char message[400];
    const int are_notes = i == sheets->recipe->item_count;
    /* Rounded first, so that the three numbers agree. */
    const double most = ceil(10.0 * needed - 1e-6) / 10.0,
                 left = floor(10.0 * fmax(room, 0.0)) / 10.0;
    snprintf(message, sizeof message,
             "%s not fit: needed are %s mm, and %s mm are left, %s mm too few; %s",
             are_notes ? "the notes do" : "it does", ifig_sheet_millimetres(most).text,
             ifig_sheet_millimetres(left).text, ifig_sheet_millimetres(most - left).text, remedy);
    if (are_notes) {
        ifig_fail(&error, IFIG_ERROR_UNSUITABLE, "%s: %s",
                  ifig_path_text(sheets->recipe->name).text, message);
    } else {
        ifig_sheet_fail_item(sheets, i, IFIG_ERROR_UNSUITABLE, &error, message);
    }
    ifig_canvas_fail(sheets->canvas, &error);
}

/* Items i to i + count - 1 stand side by side. */
static size_t row_length(const IfigSheets *sheets, size_t i)
{
    size_t count = 1;
    while (count < sheets->recipe->columns && i + count < sheets->recipe->item_count &&
           !sheets->recipe->items[i + count].begins_page) {
        count++;
    }
    return count;
}

/* Draw or measure a row; *tallest is its tallest item. */
static double lay_row(IfigSheets *sheets, size_t first, size_t count, double y, size_t *tallest)
{
    double head = 0.0, height = 0.0;
    for (size_t i = first; i < first + count; i++) {
        head = fmax(head, ifig_sheet_head_height(sheets, i));
    }
    for (size_t i = first; i < first + count; i++) {
        const double x =
            IFIG_SHEET_SIDE + (double)(i - first) * (sheets->column + IFIG_SHEET_GUTTER);
        const double own = ifig_sheet_item(sheets, i, (IfigPoint){x, y}, head);
        if (own > height) {
            height = own;
            *tallest = i;
        }
    }
    return height;
}

static double row_height(IfigSheets *sheets, size_t first, size_t count, size_t *tallest)
{
    const int is_trial = sheets->is_trial;
    sheets->is_trial = 1;
    const double height = lay_row(sheets, first, count, 0.0, tallest);
    sheets->is_trial = is_trial;
    return height;
}

static void begin_page(IfigSheets *sheets, double *y)
{
    ifig_sheet_footer(sheets);
    if (!sheets->is_trial) {
        ifig_canvas_new_page(sheets->canvas);
    }
    sheets->page++;
    sheets->box_count = 0;
    *y = IFIG_SHEET_TOP;
}

/* A page for what needs that much; 0 where there may be none. */
static int make_room(IfigSheets *sheets, size_t i, double needed, double *y)
{
    const double whole = sheets->bottom - IFIG_SHEET_TOP;
    if (needed > whole) {
        fail_room(sheets, i, needed, whole,
                  "give it fewer words, set a smaller diameter, or let it stand in fewer columns");
        return 0;
    }
    if (*y + needed <= sheets->bottom) {
        return 1;
    }
    if (sheets->recipe->most_pages != 0 && sheets->page >= sheets->recipe->most_pages) {
        fail_room(sheets, i, needed, sheets->bottom - *y,
                  "shorten its words, set a smaller diameter or more columns, or allow more pages");
        return 0;
    }
    begin_page(sheets, y);
    return 1;
}

static int may_begin_page(IfigSheets *sheets, size_t i)
{
    if (sheets->recipe->most_pages == 0 || sheets->page < sheets->recipe->most_pages) {
        return 1;
    }
    IfigError error = IFIG_ERROR_INIT;
    ifig_sheet_fail_item(
        sheets, i, IFIG_ERROR_UNSUITABLE, &error,
        "its new-page asks for more pages than 'pages' allows; raise pages, or leave new-page "
        "out");
    ifig_canvas_fail(sheets->canvas, &error);
    return 0;
}

/* All pages, one after another: the same walk measures and draws. */
static void lay_out(IfigSheets *sheets)
{
    sheets->page = 1;
    sheets->box_count = 0;
    double y = ifig_sheet_opening(sheets);
    const size_t count = sheets->recipe->item_count;
    size_t length = 1, tallest = 0;
    for (size_t i = 0; i < count; i += length) {
        length = row_length(sheets, i);
        if (sheets->recipe->items[i].begins_page && i > 0) {
            if (!may_begin_page(sheets, i)) {
                return;
            }
            begin_page(sheets, &y);
        }
        const double needed = row_height(sheets, i, length, &tallest);
        if (ifig_canvas_status(sheets->canvas) != IFIG_OK ||
            !make_room(sheets, tallest, needed, &y)) {
            return;
        }
        y += (sheets->is_trial ? needed : lay_row(sheets, i, length, y, &tallest)) + ROW_GAP;
    }
    const int was_trial = sheets->is_trial;
    sheets->is_trial = 1;
    const double notes = ifig_sheet_notes(sheets, y);
    sheets->is_trial = was_trial;
    if (make_room(sheets, count, notes, &y)) {
        ifig_sheet_notes(sheets, y);
        ifig_sheet_footer(sheets);
    }
}

static IfigStatus no_memory(IfigError *error)
{
    return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for a page; make it smaller");
}

static void choose_paper(IfigSheets *sheets)
{
    static const double sizes[][2] = {[IFIG_PAPER_EITHER] = {210.0, 279.0},
                                      [IFIG_PAPER_A4] = {210.0, 297.0},
                                      [IFIG_PAPER_LETTER] = {215.9, 279.4}};
    const double columns = sheets->recipe->columns;
    sheets->width = sizes[sheets->recipe->paper][0];
    sheets->height = sizes[sheets->recipe->paper][1];
    sheets->inner = sheets->width - 2.0 * IFIG_SHEET_SIDE;
    sheets->bottom = sheets->height - IFIG_SHEET_FOOT;
    sheets->column = (sheets->inner - IFIG_SHEET_GUTTER * (columns - 1.0)) / columns;
}

static IfigStatus open_canvas(IfigSheets *sheets, const char *path, IfigError *error)
{
    const IfigPageRecipe *const recipe = sheets->recipe;
    const IfigSheet sheet = {sheets->width, sheets->height, recipe->title,
                             recipe->subtitle != NULL ? recipe->subtitle : recipe->intro};
    IfigPageOptions options = *sheets->options;
    options.format = sheets->is_trial ? IFIG_PAGE_SVG : options.format;
    return ifig_canvas_open(path, &options, &sheet, &sheets->canvas, error);
}

/* Nothing of a trial is kept but how many pages it took, and what went wrong. */
static IfigStatus try_out(IfigSheets *sheets, const char *path, IfigError *error)
{
    sheets->is_trial = 1;
    IfigStatus status = open_canvas(sheets, path, error);
    if (status != IFIG_OK) {
        return status;
    }
    lay_out(sheets);
    sheets->page_count = sheets->page;
    sheets->is_trial = 0;
    if (ifig_canvas_status(sheets->canvas) != IFIG_OK) {
        return ifig_canvas_close(sheets->canvas, error); /* tells what it was */
    }
    ifig_canvas_discard(sheets->canvas);
    return IFIG_OK;
}

/* A recipe that a program made itself; one that was read is sound. */
static IfigStatus check_recipe(const IfigPageRecipe *recipe, IfigError *error)
{
    if ((int)recipe->paper < 0 || recipe->paper > IFIG_PAPER_LETTER) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the recipe's paper is none; take IFIG_PAPER_EITHER, _A4 or _LETTER");
    }
    if (recipe->columns < 1 || recipe->columns > 4) {
        return ifig_fail(error, IFIG_ERROR_RANGE, "the recipe's columns must be 1 to 4");
    }
    if (recipe->diameter_mm != 0.0 &&
        !(recipe->diameter_mm >= 15.0 && recipe->diameter_mm <= 180.0)) {
        return ifig_fail(error, IFIG_ERROR_RANGE,
                         "the recipe's diameter must be 15 to 180 mm, or 0 for what the columns "
                         "hold");
    }
    return IFIG_OK;
}

static IfigStatus check(const char *path, const IfigPageOptions *options,
                        const IfigPageRecipe *recipe, const IfigPageScene *scenes, IfigError *error)
{
    if (path == NULL || options == NULL || recipe == NULL || scenes == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "ifig_page_write was given a null pointer; give a path, options, a recipe "
                         "and a scene for each of its figures");
    }
    if (options->size != sizeof *options) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "the page options are of another version of the library; initialise them "
                         "with IFIG_PAGE_OPTIONS_INIT and compile against this version");
    }
    return check_recipe(recipe, error);
}

IfigStatus ifig_page_write(const char *path, const IfigPageOptions *options,
                           const IfigPageRecipe *recipe, const IfigPageScene *scenes,
                           IfigError *error)
{
    IfigStatus status = check(path, options, recipe, scenes, error);
    if (status != IFIG_OK) {
        return status;
    }
    IfigSheets *const sheets = calloc(1, sizeof *sheets);
    if (sheets == NULL) {
        return no_memory(error);
    }
    sheets->recipe = recipe;
    sheets->scenes = scenes;
    sheets->options = options;
    choose_paper(sheets);
    status = ifig_sheet_prepare(sheets, error);
    if (status == IFIG_OK) {
        status = try_out(sheets, path, error);
    }
    if (status == IFIG_OK) {
        status = open_canvas(sheets, path, error);
    }
    if (status == IFIG_OK) {
        lay_out(sheets);
        status = ifig_canvas_close(sheets->canvas, error);
    }
    ifig_sheet_release(sheets);
    free(sheets);
    return status;
}
