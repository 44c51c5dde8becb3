/* SPDX-License-Identifier: MIT */
#include "output.h"

#include <errno.h>
#include <math.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const char DIGITS[] = "0123456789";

/* Length of the UTF-8 character at text, 1 to 4 (RFC 3629), or 0 where it is none that prints. */
static size_t printable_length(const char *text)
{
    const unsigned char *byte = (const unsigned char *)text;
    static const unsigned long smallest[5] = {0, 0x20, 0xa0, 0x800, 0x10000};
    const size_t length = byte[0] < 0x80   ? 1
                          : byte[0] < 0xc0 ? 0
                          : byte[0] < 0xe0 ? 2
                          : byte[0] < 0xf0 ? 3
                          : byte[0] < 0xf8 ? 4
                                           : 0;
    unsigned long value = length <= 1 ? byte[0] : byte[0] & (0x7fUL >> length);
    for (size_t i = 1; i < length; i++) {
        if ((byte[i] & 0xc0) != 0x80) {
            return 0;
        }
        value = value << 6 | (byte[i] & 0x3f);
    }
    const int breaks_line = value == 0x7f || (value >= 0x200b && value <= 0x200f) ||
                            (value >= 0x2028 && value <= 0x202e) ||
                            (value >= 0x2066 && value <= 0x2069) || value == 0xfeff;
    const int is_code = value <= 0x10ffff && (value < 0xd800 || value > 0xdfff);
    return is_code && !breaks_line && value >= smallest[length] ? length : 0;
}

IfigCliShown ifig_cli_shown(const char *word)
{
    enum { LONGEST = 60 };
    IfigCliShown shown = {""};
    size_t used = 0;
    while (*word != '\0') {
        const size_t length = printable_length(word), step = length > 0 ? length : 1;
        if (used + step > LONGEST) {
            memcpy(shown.text + used, "...", sizeof "...");
            return shown;
        }
        memcpy(shown.text + used, length > 0 ? word : "?", step);
        used += step;
        word += step;
    }
    return shown;
}

int ifig_cli_is_printable(const char *word)
{
    size_t length = 0;
    for (; *word != '\0' && (length = printable_length(word)) > 0; word += length) {
    }
    return *word == '\0';
}

void ifig_cli_print_word(FILE *out, const char *word)
{
    while (*word != '\0') {
        const size_t length = printable_length(word), step = length > 0 ? length : 1;
        fwrite(length > 0 ? word : "?", 1, step, out);
        word += step;
    }
}

IfigCliNumber ifig_cli_rounded(double value, int digits)
{
    IfigCliNumber number;
    snprintf(number.text, sizeof number.text, "%.*g", digits, value + 0.0);
    return number;
}

IfigCliNumber ifig_cli_number(double value)
{
    IfigCliNumber number;
    int digits = 6; /* fewer would write 100 as 1e+02 */
    do {
        number = ifig_cli_rounded(value, digits);
    } while (digits++ < 17 && strtod(number.text, NULL) != value);
    return number;
}

int ifig_cli_read_number(const char *text, double *value)
{
    const char *at = text + (*text == '-' || *text == '+');
    const size_t whole = strspn(at, DIGITS);
    at += whole;
    const size_t parts = *at == '.' ? strspn(at + 1, DIGITS) : 0;
    at += *at == '.' ? parts + 1 : 0;
    if (whole + parts == 0) {
        return 0;
    }
    if (*at == 'e' || *at == 'E') {
        at += at[1] == '-' || at[1] == '+' ? 2 : 1;
        const size_t power = strspn(at, DIGITS);
        if (power == 0) {
            return 0;
        }
        at += power;
    }
    enum { LONGEST = 128 }; /* as ifig_number_read of the base has it */
    const double read = at - text <= LONGEST ? strtod(text, NULL) : HUGE_VAL;
    if (*at != '\0' || !isfinite(read)) {
        return 0;
    }
    *value = read + 0.0; /* -0 becomes 0 */
    return 1;
}

IfigCliStatus ifig_cli_complain(IfigCliStatus status, const char *format, ...)
{
    char line[1200] = "interfig: ";
    size_t used = strlen(line);
    va_list arguments;
    va_start(arguments, format);
    const int length = vsnprintf(line + used, sizeof line - used - 1, format, arguments);
    va_end(arguments);
    if (length > 0) {
        used = strlen(line);
    }
    line[used++] = '\n';
    fflush(stdout);
    /* One write, so that lines of several programs on one terminal stay whole. */
    const ssize_t written = write(STDERR_FILENO, line, used);
    (void)written;
    return status;
}

int ifig_cli_columns(const char *text)
{
    int columns = 0;
    for (; *text != '\0'; text++) {
        columns += ((unsigned char)*text & 0xc0) != 0x80;
    }
    return columns;
}

void ifig_cli_wrap(FILE *out, int column, int indent, const char *text)
{
    enum { WIDTH = 80 };
    int is_first = 1;
    while (*text != '\0') {
        char word[512];
        size_t length = strcspn(text, " ");
        length = length < sizeof word ? length : sizeof word - 1;
        memcpy(word, text, length);
        word[length] = '\0';
        text += length;
        text += strspn(text, " ");
        const int columns = ifig_cli_columns(word);
        if (!is_first && column + 1 + columns > WIDTH) {
            fprintf(out, "\n%*s", indent, "");
            column = indent;
        } else if (!is_first) {
            fputc(' ', out);
            column++;
        }
        fputs(word, out);
        column += columns;
        is_first = 0;
    }
    fputc('\n', out);
}

void ifig_cli_print_lines(FILE *out, const char *text)
{
    while (*text != '\0') {
        const size_t length = strcspn(text, "\n");
        char *line = strndup(text, length);
        if (line != NULL) {
            ifig_cli_wrap(out, 0, 2, line);
        }
        free(line);
        text += length + (text[length] == '\n');
    }
}

IfigCliStatus ifig_cli_finish_output(void)
{
    const int had_failed = ferror(stdout);
    if (fflush(stdout) == 0 && !had_failed) {
        return IFIG_CLI_OK;
    }
    return ifig_cli_complain(IFIG_CLI_IO, "standard output: %s; what was printed is not complete",
                             errno != 0 ? strerror(errno) : "writing failed");
}
