/* SPDX-License-Identifier: MIT */
/* Words put one after another into a room that may be too small. */
#include "base.h"

#include <string.h>

IfigPage ifig_page(char *text, size_t size)
{
    text[0] = '\0';
    return (IfigPage){text, size, 0, 0};
}

static void put(IfigPage *page, const char *word, size_t length)
{
    if (page->used + length < page->size) {
        memcpy(page->text + page->used, word, length);
        page->text[page->used + length] = '\0';
    }
    page->used += length;
}

void ifig_page_put(IfigPage *page, const char *word)
{
    put(page, word, strlen(word));
}

void ifig_page_fill(IfigPage *page, const char *message, const char *const *value)
{
    while (*message != '\0') {
        const size_t plain = strcspn(message, "{");
        put(page, message, plain);
        message += plain;
        if (*message == '{') {
            ifig_page_put(page, value[message[1] - '1']);
            message += strlen("{1}");
        }
    }
}

IfigStatus ifig_page_end(const IfigPage *page, const char *what, IfigError *error)
{
    if (page->used < page->size) {
        return IFIG_OK;
    }
    page->text[0] = '\0';
    return ifig_fail(error, IFIG_ERROR_RANGE,
                     "%s: the words take %s bytes and have room for %s; 4096 always suffice", what,
                     ifig_number_text((double)page->used + 1.0, 9).text,
                     ifig_number_text((double)page->size, 9).text);
}
