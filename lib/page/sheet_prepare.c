/* SPDX-License-Identifier: MIT */
/* What an item of a handout comes to before anything is drawn: its reading, its photo, and the one
 * diameter that suits all. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "image.h"
#include "sheet.h"

static IfigStatus no_memory(IfigError *error)
{
    return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for a page; make it smaller");
}

IfigNumberText ifig_sheet_millimetres(double value)
{
    return ifig_number_text(ceil(10.0 * value - 1e-6) / 10.0, 6);
}

IfigStatus ifig_sheet_fail_item(const IfigSheets *sheets, size_t i, IfigStatus status,
                                IfigError *error, const char *message)
{
    const IfigPageItem *const item = &sheets->recipe->items[i];
    return ifig_fail(error, status, "%s:%zu:%zu: figure %zu, '%s': %s",
                     ifig_path_text(sheets->recipe->name).text, item->line, item->column, i + 1,
                     ifig_word_text(ifig_sheet_title(sheets, i)).text, message);
}

/* The caution that ends a reading stands at the foot of each page. */
static void cut_caution(char *words)
{
    char *const caution = strstr(words, ifig_page_message(IFIG_PAGE_SAY_SHEET_CAUTION_EVIDENCE));
    for (char *end = caution; end != NULL && end >= words; end--) {
        *end = '\0';
        if (end == words || end[-1] != '\n') {
            break;
        }
    }
}

/* Faces and stacks of layers have no reading. */
static IfigStatus read_scene(const IfigSheets *sheets, size_t i, IfigError *error)
{
    const IfigPageItem *const item = &sheets->recipe->items[i];
    IfigSheetItem *const found = &sheets->items[i];
    IfigError why = IFIG_ERROR_INIT;
    const int is_asked = item->reading != IFIG_PAGE_READING_NONE || item->caption_is_reading;
    found->reading = (IfigReading)IFIG_READING_INIT;
    IfigStatus status = item->show == IFIG_PAGE_SHOW_FIGURE
                            ? ifig_reading(sheets->scenes[i].scene, &found->reading, &why)
                            : ifig_fail(&why, IFIG_ERROR_UNSUITABLE,
                                        "a face without a lens has no figure to read; leave "
                                        "reading out, or write a caption");
    found->has_reading = status == IFIG_OK;
    if (status != IFIG_OK || !is_asked) {
        return is_asked || status == IFIG_ERROR_MEMORY
                   ? ifig_sheet_fail_item(sheets, i, status, error, why.message)
                   : IFIG_OK;
    }
    const int has_plate = sheets->scenes[i].scene->instrument.plate.material != IFIG_PLATE_NONE;
    if (item->reading == IFIG_PAGE_READING_FULL) {
        enum { ROOM = 8192 };
        found->words = malloc(ROOM);
        status = found->words != NULL
                     ? ifig_reading_describe(&found->reading, found->words, ROOM, error)
                     : no_memory(error);
        if (status == IFIG_OK) {
            cut_caution(found->words);
        }
    } else if (item->reading == IFIG_PAGE_READING_SHORT) {
        found->words = ifig_sheet_short_reading(&found->reading, has_plate);
        status = found->words != NULL ? IFIG_OK : no_memory(error);
    }
    if (status == IFIG_OK && item->caption_is_reading) {
        found->caption = ifig_sheet_short_reading(&found->reading, has_plate);
        status = found->caption != NULL ? IFIG_OK : no_memory(error);
    }
    return status;
}

static IfigStatus read_photo(const IfigSheets *sheets, size_t i, IfigError *error)
{
    const IfigPagePhoto *const photo = &sheets->recipe->items[i].photo;
    IfigSheetItem *const found = &sheets->items[i];
    IfigError why = IFIG_ERROR_INIT;
    if (photo->path == NULL) {
        return IFIG_OK;
    }
    found->circle = (IfigCircle){photo->x, photo->y, photo->radius};
    IfigStatus status = ifig_photo_read(photo->path, &found->photo, &why);
    if (status == IFIG_OK && photo->is_found) {
        status = ifig_photo_find_circle(&found->photo, photo->path, &found->circle, &why);
    }
    const IfigCircle *const circle = &found->circle;
    if (status == IFIG_OK && (circle->x < 0.0 || circle->y < 0.0 ||
                              circle->x > found->photo.width || circle->y > found->photo.height ||
                              circle->radius > hypot(found->photo.width, found->photo.height))) {
        status =
            ifig_fail(&why, IFIG_ERROR_RANGE,
                      "the circle lies outside the photo, which has %u x %u pixels; its centre "
                      "must lie inside",
                      found->photo.width, found->photo.height);
    }
    return status == IFIG_OK ? IFIG_OK
                             : ifig_fail(error, status, "%s:%zu:%zu: photo: %s",
                                         ifig_path_text(sheets->recipe->name).text, photo->line,
                                         photo->column, why.message);
}

static IfigStatus choose_diameter(IfigSheets *sheets, IfigError *error)
{
    double least = sheets->column;
    for (size_t i = 0; i < sheets->recipe->item_count; i++) {
        const double most = ifig_sheet_diameter(sheets, i);
        const double pieces = (double)ifig_sheet_pieces(&sheets->recipe->items[i]);
        const double needed = pieces * sheets->recipe->diameter_mm + 5.0 * (pieces - 1.0);
        if (needed > sheets->column + 1e-9) {
            char message[300];
            snprintf(message, sizeof message,
                     "its circles need a width of %s mm and a column has %s, %s mm too much; lower "
                     "the diameter, or give the recipe fewer columns",
                     ifig_sheet_millimetres(needed).text,
                     ifig_sheet_millimetres(sheets->column).text,
                     ifig_sheet_millimetres(needed - sheets->column).text);
            return ifig_sheet_fail_item(sheets, i, IFIG_ERROR_UNSUITABLE, error, message);
        }
        least = fmin(least, most);
    }
    sheets->diameter = sheets->recipe->diameter_mm > 0.0 ? sheets->recipe->diameter_mm : least;
    return IFIG_OK;
}

IfigStatus ifig_sheet_prepare(IfigSheets *sheets, IfigError *error)
{
    IfigStatus status = IFIG_OK;
    sheets->items = calloc(sheets->recipe->item_count, sizeof *sheets->items);
    if (sheets->items == NULL) {
        return no_memory(error);
    }
    for (size_t i = 0; i < sheets->recipe->item_count && status == IFIG_OK; i++) {
        status = read_photo(sheets, i, error);
        if (status == IFIG_OK) {
            status = read_scene(sheets, i, error);
        }
    }
    return status == IFIG_OK ? choose_diameter(sheets, error) : status;
}

void ifig_sheet_release(IfigSheets *sheets)
{
    for (size_t i = 0; sheets->items != NULL && i < sheets->recipe->item_count; i++) {
        ifig_photo_free(&sheets->items[i].photo);
        free(sheets->items[i].words);
        free(sheets->items[i].caption);
    }
    free(sheets->items);
}
