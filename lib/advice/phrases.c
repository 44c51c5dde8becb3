/* SPDX-License-Identifier: MIT */
/* Advice written down, sentence by sentence. */
#include "advice.h"

#include "base.h"

#include <string.h>

/* A sentence begins with a capital, also where a name stands at its head. */
static void begin_with_capital(IfigPage *page, size_t start)
{
    if (page->used < page->size && page->text[start] >= 'a' && page->text[start] <= 'z') {
        page->text[start] = (char)(page->text[start] - 'a' + 'A');
    }
}

void ifig_advise(IfigPage *page, IfigAdvice message, const char *const *value)
{
    const size_t start = page->used;
    ifig_page_fill(page, ifig_advice_message(message), value);
    begin_with_capital(page, start);
    ifig_page_put(page, "\n");
}

IfigPhrase ifig_phrase(IfigAdvice message, const char *const *value)
{
    IfigPhrase phrase = {""};
    IfigPage page = ifig_page(phrase.text, sizeof phrase.text);
    ifig_page_fill(&page, ifig_advice_message(message), value);
    return phrase;
}

void ifig_add_to_phrase(IfigPhrase *phrase, const char *word, size_t index, size_t count,
                        IfigAdvice last_joint)
{
    IfigPage page = {phrase->text, sizeof phrase->text, strlen(phrase->text), 0};
    if (index > 0) {
        ifig_page_put(&page,
                      ifig_advice_message(index + 1 == count ? last_joint : IFIG_ADVISE_COMMA));
    }
    ifig_page_put(&page, word);
}
