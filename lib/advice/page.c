/* SPDX-License-Identifier: MIT */
/* Advice written down, sentence by sentence. */
#include "advice.h"

#include "base.h"

#include <string.h>

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

/* A sentence begins with a capital, also where a name stands at its head. */
static void put_head(IfigPage *page, const char *word)
{
    const char first = word[0];
    if (first >= 'a' && first <= 'z') {
        const char capital = (char)(first - 'a' + 'A');
        put(page, &capital, 1);
        word++;
    }
    ifig_page_put(page, word);
}

static void fill_in(IfigPage *page, IfigAdvice message, const char *const *value, int is_sentence)
{
    const char *at = ifig_advice_message(message);
    int is_head = is_sentence;
    while (*at != '\0') {
        const size_t plain = strcspn(at, "{");
        put(page, at, plain);
        is_head = is_head && plain == 0;
        at += plain;
        if (*at == '{') {
            const char *word = value[at[1] - '1'];
            if (is_head) {
                put_head(page, word);
            } else {
                ifig_page_put(page, word);
            }
            is_head = 0;
            at += strlen("{1}");
        }
    }
}

void ifig_advise(IfigPage *page, IfigAdvice message, const char *const *value)
{
    fill_in(page, message, value, 1);
    put(page, "\n", 1);
}

IfigPhrase ifig_phrase(IfigAdvice message, const char *const *value)
{
    IfigPhrase phrase = {""};
    IfigPage page = {phrase.text, sizeof phrase.text, 0};
    fill_in(&page, message, value, 0);
    return phrase;
}

void ifig_add_to_phrase(IfigPhrase *phrase, const char *word, size_t index, size_t count,
                        IfigAdvice last_joint)
{
    IfigPage page = {phrase->text, sizeof phrase->text, strlen(phrase->text)};
    if (index > 0) {
        ifig_page_put(&page,
                      ifig_advice_message(index + 1 == count ? last_joint : IFIG_ADVISE_COMMA));
    }
    ifig_page_put(&page, word);
}

IfigStatus ifig_page_end(const IfigPage *page, const char *what, IfigError *error)
{
    if (page->used >= page->size) {
        return ifig_fail(error, IFIG_ERROR_RANGE, "%s: the text needs %s bytes and has room for %s",
                         what, ifig_number_text((double)page->used + 1.0, 9).text,
                         ifig_number_text((double)page->size, 9).text);
    }
    return IFIG_OK;
}
