/* SPDX-License-Identifier: MIT */
#include "base.h"

#include <stdint.h>
#include <string.h>

enum { LONGEST = 255 };

static size_t least(size_t a, size_t b, size_t c)
{
    size_t smaller = a < b ? a : b;
    return smaller < c ? smaller : c;
}

size_t ifig_edit_distance(const char *word, const char *other)
{
    size_t rows = strnlen(word, LONGEST + 1);
    size_t columns = strnlen(other, LONGEST + 1);
    if (rows > LONGEST || columns > LONGEST) {
        return SIZE_MAX;
    }
    /* Three rows of the table of distances between heads of the two words: two back, one back, now
     */
    size_t row[3][LONGEST + 1];
    size_t *before = row[0], *above = row[1], *now = row[2];
    for (size_t j = 0; j <= columns; j++) {
        before[j] = above[j] = j;
    }
    for (size_t i = 1; i <= rows; i++) {
        now[0] = i;
        for (size_t j = 1; j <= columns; j++) {
            size_t change = word[i - 1] == other[j - 1] ? 0 : 1;
            now[j] = least(above[j] + 1, now[j - 1] + 1, above[j - 1] + change);
            int are_swapped =
                i > 1 && j > 1 && word[i - 1] == other[j - 2] && word[i - 2] == other[j - 1];
            if (are_swapped && before[j - 2] + 1 < now[j]) {
                now[j] = before[j - 2] + 1;
            }
        }
        size_t *spare = before;
        before = above;
        above = now;
        now = spare;
    }
    return above[columns];
}
