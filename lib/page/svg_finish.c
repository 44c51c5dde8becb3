/* SPDX-License-Identifier: MIT */
/* What cairo's SVG lacks: a title, a description and a language for those who do not see it; and
 * cairo numbers its parts on from whatever this process drew before, so that the same page would be
 * another file the second time. Letters are outlines in cairo's SVG; the words are in <desc>. */
#include "canvas.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

enum { NUMBERS_MAX = 4096 };

typedef struct Numbers {
    unsigned long old[NUMBERS_MAX];
    size_t count;
} Numbers;

static size_t renumbered(Numbers *numbers, unsigned long old)
{
    for (size_t i = 0; i < numbers->count; i++) {
        if (numbers->old[i] == old) {
            return i;
        }
    }
    if (numbers->count == NUMBERS_MAX) {
        return old; /* no harm but other bytes the next time */
    }
    numbers->old[numbers->count] = old;
    return numbers->count++;
}

/* The length of a part's name at `at` that ends in one of cairo's numbers, or 0. */
static size_t numbered_name(const char *at)
{
    static const char *const names[] = {"surface", "source", "image", "mask"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const size_t length = strlen(names[i]);
        if (strncmp(at, names[i], length) == 0 && isdigit((unsigned char)at[length])) {
            return length;
        }
    }
    return 0;
}

/* Copy, with the numbers behind names (after '"' or '#') replaced. */
static void copy_renumbered(const char *from, Numbers *numbers, IfigBytes *finished)
{
    const char *kept = from;
    for (const char *at = from; *at != '\0'; at++) {
        const size_t length = *at == '"' || *at == '#' ? numbered_name(at + 1) : 0;
        if (length > 0) {
            char *end = NULL;
            const char *const digits = at + 1 + length;
            const size_t number = renumbered(numbers, strtoul(digits, &end, 10));
            ifig_bytes_add(finished, kept, (size_t)(digits - kept));
            ifig_bytes_add_text(finished, ifig_number_text((double)number, 10).text);
            kept = end;
            at = end - 1;
        }
    }
    ifig_bytes_add_text(finished, kept);
}

static void add_words(const IfigSheetWords *words, IfigBytes *finished)
{
    ifig_bytes_add_text(finished, "\n<title id=\"title\">");
    ifig_bytes_add_xml(finished, words->title);
    ifig_bytes_add_text(finished, "</title>\n<desc id=\"description\">");
    ifig_bytes_add_xml(finished, words->description);
    for (size_t i = 0; i < words->alternative_count; i++) {
        ifig_bytes_add_text(finished, "\n");
        ifig_bytes_add_xml(finished, words->alternatives[i]);
    }
    ifig_bytes_add_text(finished, "</desc>");
    for (size_t i = 0; i < words->text_count; i++) {
        ifig_bytes_add_text(finished, i == 0 ? "\n<metadata>" : "\n");
        ifig_bytes_add_xml(finished, words->text[i].keyword);
        ifig_bytes_add_text(finished, ": ");
        ifig_bytes_add_xml(finished, words->text[i].text);
        ifig_bytes_add_text(finished, i + 1 == words->text_count ? "</metadata>" : "");
    }
}

void ifig_svg_finish(const IfigBytes *drawn, const IfigSheetWords *words, IfigBytes *finished)
{
    IfigBytes copy = {NULL, 0, 0, 0};
    Numbers *const numbers = calloc(1, sizeof *numbers);
    ifig_bytes_add(&copy, drawn->at, drawn->count);
    ifig_bytes_add(&copy, "", 1);
    if (copy.is_out_of_memory || numbers == NULL) {
        finished->is_out_of_memory = 1;
    } else {
        char *const text = (char *)copy.at;
        char *const tag = strstr(text, "<svg");
        char *const end = tag != NULL ? strchr(tag, '>') : NULL;
        if (end == NULL) {
            copy_renumbered(text, numbers, finished);
        } else {
            ifig_bytes_add(finished, text, (size_t)(end - text));
            ifig_bytes_add_text(finished, " role=\"img\" lang=\"en\" xml:lang=\"en\" "
                                          "aria-labelledby=\"title description\">");
            add_words(words, finished);
            copy_renumbered(end + 1, numbers, finished);
        }
    }
    free(numbers);
    ifig_bytes_free(&copy);
}
