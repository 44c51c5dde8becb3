/* SPDX-License-Identifier: MIT */
/* Bytes that grow, and the words a sheet carries. */
#include "canvas.h"

#include <stdlib.h>
#include <string.h>

void ifig_bytes_add(IfigBytes *bytes, const void *more, size_t count)
{
    if (bytes->is_out_of_memory || count == 0) {
        return;
    }
    if (count > bytes->room - bytes->count) {
        const size_t room = 2 * bytes->room + count + 4096;
        unsigned char *const grown = realloc(bytes->at, room);
        if (grown == NULL) {
            bytes->is_out_of_memory = 1;
            return;
        }
        bytes->at = grown;
        bytes->room = room;
    }
    memcpy(bytes->at + bytes->count, more, count);
    bytes->count += count;
}

void ifig_bytes_add_text(IfigBytes *bytes, const char *text)
{
    ifig_bytes_add(bytes, text, strlen(text));
}

/* XML 1.0 has no control characters but tab and the line ends. */
void ifig_bytes_add_xml(IfigBytes *bytes, const char *text)
{
    for (; *text != '\0'; text++) {
        const unsigned char letter = (unsigned char)*text;
        if (letter == '&') {
            ifig_bytes_add_text(bytes, "&amp;");
        } else if (letter == '<') {
            ifig_bytes_add_text(bytes, "&lt;");
        } else if (letter == '>') {
            ifig_bytes_add_text(bytes, "&gt;");
        } else if (letter < 0x20 && letter != '\n' && letter != '\t') {
            ifig_bytes_add_text(bytes, "?");
        } else {
            ifig_bytes_add(bytes, text, 1);
        }
    }
}

void ifig_bytes_free(IfigBytes *bytes)
{
    free(bytes->at);
    *bytes = (IfigBytes){NULL, 0, 0, 0};
}

static IfigStatus check_words(const IfigSheet *sheet, const IfigPageOptions *options,
                              IfigError *error)
{
    if (sheet->title == NULL || !ifig_utf8_is_valid(sheet->title) ||
        (sheet->description != NULL && !ifig_utf8_is_valid(sheet->description))) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "a page's title or description is missing or not UTF-8; give UTF-8 text");
    }
    if (options->text_count > 0 && options->text == NULL) {
        return ifig_fail(error, IFIG_ERROR_ARGUMENT,
                         "a page's text is a null pointer; give text_count entries");
    }
    for (size_t i = 0; i < options->text_count; i++) {
        const IfigImageText *const entry = &options->text[i];
        if (entry->keyword == NULL || entry->text == NULL || entry->keyword[0] == '\0' ||
            !ifig_utf8_is_valid(entry->keyword) || !ifig_utf8_is_valid(entry->text)) {
            return ifig_fail(
                error, IFIG_ERROR_ARGUMENT,
                "a page's text entry %s is missing a part or not UTF-8; give a keyword "
                "and a text in UTF-8",
                ifig_number_text((double)i + 1.0, 9).text);
        }
    }
    return IFIG_OK;
}

static int copy_words(IfigSheetWords *words, const IfigSheet *sheet, const IfigPageOptions *options)
{
    words->title = strdup(sheet->title);
    words->description = strdup(sheet->description != NULL ? sheet->description : sheet->title);
    words->text = calloc(options->text_count + 2, sizeof *words->text);
    if (words->title == NULL || words->description == NULL || words->text == NULL) {
        return 0;
    }
    for (size_t i = 0; i < options->text_count; i++) {
        char *const keyword = strdup(options->text[i].keyword);
        char *const text = strdup(options->text[i].text);
        words->text[words->text_count++] = (IfigImageText){keyword, text};
        if (keyword == NULL || text == NULL) {
            return 0;
        }
    }
    return 1;
}

IfigStatus ifig_sheet_words_copy(IfigSheetWords *words, const IfigSheet *sheet,
                                 const IfigPageOptions *options, IfigError *error)
{
    const IfigStatus status = check_words(sheet, options, error);
    if (status != IFIG_OK || copy_words(words, sheet, options)) {
        return status;
    }
    return ifig_fail(error, IFIG_ERROR_MEMORY, "no memory for a page; close programs");
}

int ifig_sheet_words_add_alternative(IfigSheetWords *words, const char *alternative)
{
    if (words->alternative_count == words->alternative_room) {
        const size_t room = 2 * words->alternative_room + 16;
        char **const grown = realloc(words->alternatives, room * sizeof *grown);
        if (grown == NULL) {
            return 0;
        }
        words->alternatives = grown;
        words->alternative_room = room;
    }
    char *const copy = strdup(alternative);
    if (copy != NULL) {
        words->alternatives[words->alternative_count++] = copy;
    }
    return copy != NULL;
}

void ifig_sheet_words_forget_alternatives(IfigSheetWords *words)
{
    for (size_t i = 0; i < words->alternative_count; i++) {
        free(words->alternatives[i]);
    }
    words->alternative_count = 0;
}

void ifig_sheet_words_free(IfigSheetWords *words)
{
    for (size_t i = 0; i < words->text_count; i++) {
        free((void *)(uintptr_t)words->text[i].keyword);
        free((void *)(uintptr_t)words->text[i].text);
    }
    ifig_sheet_words_forget_alternatives(words);
    free(words->text);
    free(words->alternatives);
    free(words->title);
    free(words->description);
}
