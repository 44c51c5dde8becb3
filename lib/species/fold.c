/* SPDX-License-Identifier: MIT */
/* How look-ups compare words, and the stretches of a species' texts that it may be called by. */
#include <string.h>

#include "base.h"
#include "species.h"

/* Letters U+00C0 to U+017F without accents, in lower case, a row of sixteen; '?' for what is no
 * letter. */
/* clang-format off */
static const char *const latin[] = {
    "a", "a", "a", "a", "a", "a", "ae", "c", "e", "e", "e", "e", "i", "i", "i", "i",      /* 00C0 */
    "d", "n", "o", "o", "o", "o", "o", "?", "o", "u", "u", "u", "u", "y", "th", "ss",     /* 00D0 */
    "a", "a", "a", "a", "a", "a", "ae", "c", "e", "e", "e", "e", "i", "i", "i", "i",      /* 00E0 */
    "d", "n", "o", "o", "o", "o", "o", "?", "o", "u", "u", "u", "u", "y", "th", "y",      /* 00F0 */
    "a", "a", "a", "a", "a", "a", "c", "c", "c", "c", "c", "c", "c", "c", "d", "d",       /* 0100 */
    "d", "d", "e", "e", "e", "e", "e", "e", "e", "e", "e", "e", "g", "g", "g", "g",       /* 0110 */
    "g", "g", "g", "g", "h", "h", "h", "h", "i", "i", "i", "i", "i", "i", "i", "i",       /* 0120 */
    "i", "i", "ij", "ij", "j", "j", "k", "k", "k", "l", "l", "l", "l", "l", "l", "l",     /* 0130 */
    "l", "l", "l", "n", "n", "n", "n", "n", "n", "n", "n", "n", "o", "o", "o", "o",       /* 0140 */
    "o", "o", "oe", "oe", "r", "r", "r", "r", "r", "r", "s", "s", "s", "s", "s", "s",     /* 0150 */
    "s", "s", "t", "t", "t", "t", "t", "t", "u", "u", "u", "u", "u", "u", "u", "u",       /* 0160 */
    "u", "u", "u", "u", "w", "w", "y", "y", "y", "z", "z", "z", "z", "z", "z", "s",       /* 0170 */
};
/* clang-format on */

/* What a code point becomes: text, or NULL where it stays as it is. */
static const char *folded_letter(unsigned long c, char ascii[2])
{
    int is_apostrophe = c == '\'' || c == 0x2018 || c == 0x2019;
    int is_accent = c >= 0x300 && c <= 0x36f; /* written after its letter */
    if (c == ' ' || c == '\t' || c == 0xa0 || c == '-' || c == '_' || c == 0x2010 || c == 0x2011 ||
        is_apostrophe || is_accent) {
        return "";
    }
    if (c >= 0xc0 && c <= 0x17f && latin[c - 0xc0][0] != '?') {
        return latin[c - 0xc0];
    }
    if (c < 0x80) {
        ascii[0] = (char)(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
        ascii[1] = '\0';
        return ascii;
    }
    return NULL;
}

IfigFoldedWord ifig_fold(const char *text, size_t length)
{
    IfigFoldedWord word = {"", 0};
    size_t used = 0, at = 0;
    while (at < length && text[at] != '\0') {
        unsigned long code_point = 0;
        char ascii[2];
        size_t taken = ifig_utf8_read(text + at, &code_point);
        const char *letter = taken > 0 ? folded_letter(code_point, ascii) : NULL;
        const char *source = letter != NULL ? letter : text + at;
        taken = taken > 0 ? taken : 1;
        size_t size = letter != NULL ? strlen(letter) : taken;
        if (used + size >= sizeof word.text) {
            word.is_cut = 1;
            break;
        }
        memcpy(word.text + used, source, size);
        used += size;
        at += taken;
    }
    word.text[used] = '\0';
    return word;
}

/* The next stretch of [at, end) of a text between the separators; 0 when there is none. */
static int next_stretch(const char *text, const char *separators, IfigCallingWalk *walk,
                        IfigCalling *calling)
{
    walk->at += strspn(text + walk->at, separators);
    walk->at += strspn(text + walk->at, " ");
    size_t length = strcspn(text + walk->at, separators);
    calling->text = text + walk->at;
    calling->length = length;
    walk->at += length;
    return length > 0;
}

/* A name or variety without the remark in brackets behind it: "lapis" of "lapis (AGG)". */
static void drop_remark(IfigCalling *calling)
{
    const char *bracket = memchr(calling->text, '(', calling->length);
    if (bracket != NULL && bracket != calling->text) {
        calling->length = (size_t)(bracket - calling->text);
    }
    while (calling->length > 0 && calling->text[calling->length - 1] == ' ') {
        calling->length--;
    }
}

int ifig_next_calling(const IfigSpecies *species, IfigCallingWalk *walk, IfigCalling *calling)
{
    static const struct {
        IfigSpeciesText column;
        const char *separators;
        int keeps_remark;
        IfigFit fit;
    } stage[] = {
        {IFIG_TEXT_KEY, "", 1, IFIG_FIT_KEY},
        {IFIG_TEXT_NAME, "", 1, IFIG_FIT_NAME},
        {IFIG_TEXT_NAME, "", 0, IFIG_FIT_NAME},
        {IFIG_TEXT_VARIETIES, ";", 1, IFIG_FIT_VARIETY},
        {IFIG_TEXT_VARIETIES, ";", 0, IFIG_FIT_VARIETY},
        {IFIG_TEXT_NAME, " ,;()/-", 1, IFIG_FIT_WORD},
        {IFIG_TEXT_VARIETIES, " ,;()/-", 1, IFIG_FIT_WORD},
    };
    for (; walk->stage < (int)(sizeof stage / sizeof *stage); walk->stage++, walk->at = 0) {
        const char *text = species->record.text[stage[walk->stage].column];
        if (next_stretch(text, stage[walk->stage].separators, walk, calling)) {
            calling->fit = stage[walk->stage].fit;
            if (!stage[walk->stage].keeps_remark) {
                drop_remark(calling);
            }
            return 1;
        }
    }
    return 0;
}
