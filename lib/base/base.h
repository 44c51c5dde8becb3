/* SPDX-License-Identifier: MIT */
/* Room 0, base: mathematics and words, no physics. Every room may enter it. */
#ifndef IFIG_BASE_ROOM_H
#define IFIG_BASE_ROOM_H

#include <stddef.h>

#include "interfig/status.h"

#define IFIG_PI     3.14159265358979323846
#define IFIG_DEGREE (IFIG_PI / 180.0)

/* Write a status and a printf-like message into the caller's error object (may be NULL) and return
 * the status. Numbers must be brought in as text by ifig_number_text: printf follows the locale. */
#if defined(__GNUC__)
__attribute__((format(printf, 3, 4)))
#endif
IfigStatus
ifig_fail(IfigError *error, IfigStatus status, const char *format, ...);

/* A number as text with a point, whatever the locale: up to `digits` significant digits, without
 * trailing zeros. A struct, so that a call can stand inside an argument list. */
typedef struct IfigNumberText {
    char text[32];
} IfigNumberText;
IfigNumberText ifig_number_text(double value, int digits);

/* Read a whole string as a finite decimal number, with a point, whatever the locale. Refuses empty
 * text, blanks, hexadecimal, "nan", "inf", anything left over, and overflow. 1 when read. */
int ifig_number_read(const char *text, double *value);

/* Refuse a value that is not finite or outside [low, high]; the message names `what`, the value,
 * the range and `unit`. */
IfigStatus ifig_check_range(const char *what, double value, double low, double high,
                            const char *unit, IfigError *error);

/* Read one code point of UTF-8 (RFC 3629: no surrogates, no overlong forms). Returns its length in
 * bytes, 1 to 4, or 0 at the end of the text and where the bytes are no UTF-8. */
size_t ifig_utf8_read(const char *text, unsigned long *code_point);

/* 1 for a code point that prints or spaces within one line: no control, line separator, direction
 * override, byte-order mark or noncharacter, which would break a log, a terminal or a file. */
int ifig_is_printable(unsigned long code_point);

/* The head of a user's word, fit to stand in a message: at most 60 bytes, whole printable
 * characters ('?' for the rest), "..." where it was cut. Reads no more of the word than that. */
typedef struct IfigWordText {
    char text[64];
} IfigWordText;
IfigWordText ifig_word_text(const char *word);

/* Words put one after another into a caller's room (page.c); `used` counts on beyond it, so that
 * the lack is known at the end. */
typedef struct IfigPage {
    char *text;
    size_t size, used;
    int in_line; /* for those who put several sentences on a line: one stands there already */
} IfigPage;
IfigPage ifig_page(char *text, size_t size);
void ifig_page_put(IfigPage *page, const char *word);
/* A message whose {1} to {9} stand for values. */
void ifig_page_fill(IfigPage *page, const char *message, const char *const *value);
/* IFIG_ERROR_RANGE, and no text, where the room was too little for `what`. */
IfigStatus ifig_page_end(const IfigPage *page, const char *what, IfigError *error);

/* How many letters must be changed, added, dropped or swapped with a neighbour to turn one word
 * into the other (Damerau, Commun. ACM 7, 171 (1964), no letter touched twice). Bytes count as
 * letters. Words longer than 255 bytes are as far apart as can be: SIZE_MAX. */
size_t ifig_edit_distance(const char *word, const char *other);

#endif
