/* SPDX-License-Identifier: MIT */
#include "base.h"

#include <string.h>

size_t ifig_utf8_read(const char *text, unsigned long *code_point)
{
    static const unsigned long smallest[5] = {0, 1, 0x80, 0x800, 0x10000};
    const unsigned char *byte = (const unsigned char *)text;
    size_t length = 0;
    unsigned long value = 0;
    if (byte[0] == 0) {
        return 0;
    }
    if (byte[0] < 0x80) {
        length = 1, value = byte[0];
    } else if ((byte[0] & 0xe0) == 0xc0) {
        length = 2, value = byte[0] & 0x1f;
    } else if ((byte[0] & 0xf0) == 0xe0) {
        length = 3, value = byte[0] & 0x0f;
    } else if ((byte[0] & 0xf8) == 0xf0) {
        length = 4, value = byte[0] & 0x07;
    } else {
        return 0;
    }
    for (size_t i = 1; i < length; i++) {
        if ((byte[i] & 0xc0) != 0x80) {
            return 0;
        }
        value = value << 6 | (byte[i] & 0x3f);
    }
    if (value < smallest[length] || value > 0x10ffff || (value >= 0xd800 && value <= 0xdfff)) {
        return 0;
    }
    *code_point = value;
    return length;
}

int ifig_is_printable(unsigned long c)
{
    int is_control = c < 0x20 || (c >= 0x7f && c < 0xa0);
    int is_separator = c == 0x2028 || c == 0x2029;
    int is_direction = (c >= 0x202a && c <= 0x202e) || (c >= 0x2066 && c <= 0x2069);
    int is_no_character = c == 0xfeff || (c & 0xfffe) == 0xfffe || (c >= 0xfdd0 && c <= 0xfdef);
    return !is_control && !is_separator && !is_direction && !is_no_character;
}

IfigWordText ifig_word_text(const char *word)
{
    enum { LONGEST = 60 };
    IfigWordText result;
    size_t used = 0;
    for (const char *at = word; *at != '\0';) {
        unsigned long code_point = 0;
        size_t length = ifig_utf8_read(at, &code_point);
        int keep = length > 0 && ifig_is_printable(code_point);
        size_t needed = keep ? length : 1;
        if (used + needed > LONGEST) {
            memcpy(result.text + used, "...", 3);
            used += 3;
            break;
        }
        if (keep) {
            memcpy(result.text + used, at, length);
        } else {
            result.text[used] = '?';
        }
        used += needed;
        at += length > 0 ? length : 1;
    }
    result.text[used] = '\0';
    return result;
}
