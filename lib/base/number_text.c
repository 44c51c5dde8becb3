/* SPDX-License-Identifier: MIT */
/* strtod and printf follow the locale ("0,5"); these do not: they run in the C locale, set for the
 * calling thread alone while they run (POSIX.1-2017, uselocale). */
#include "base.h"

#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Enter the C locale in this thread; leave_c_locale with what comes back returns. */
static locale_t enter_c_locale(void)
{
    locale_t c_locale = newlocale(LC_ALL_MASK, "C", (locale_t)0);
    return c_locale != (locale_t)0 ? uselocale(c_locale) : (locale_t)0;
}

static void leave_c_locale(locale_t before)
{
    if (before != (locale_t)0) {
        locale_t c_locale = uselocale(before);
        freelocale(c_locale);
    }
}

IfigNumberText ifig_number_text(double value, int digits)
{
    IfigNumberText result;
    if (isnan(value)) {
        strcpy(result.text, "nan");
        return result;
    }
    if (isinf(value)) {
        strcpy(result.text, value > 0 ? "inf" : "-inf");
        return result;
    }
    if (digits < 1 || digits > 17) {
        digits = 17;
    }
    locale_t before = enter_c_locale();
    snprintf(result.text, sizeof result.text, "%.*g", digits, value == 0 ? 0.0 : value);
    leave_c_locale(before);
    return result;
}

/* Length of a decimal number at the start of the text, 0 where there is none. */
static size_t decimal_length(const char *text)
{
    size_t i = text[0] == '-' || text[0] == '+' ? 1 : 0;
    size_t whole = strspn(text + i, "0123456789");
    i += whole;
    size_t fraction = 0;
    if (text[i] == '.') {
        fraction = strspn(text + i + 1, "0123456789");
        i += 1 + fraction;
    }
    if (whole + fraction == 0) {
        return 0;
    }
    if (text[i] == 'e' || text[i] == 'E') {
        size_t sign = text[i + 1] == '-' || text[i + 1] == '+' ? 1 : 0;
        size_t exponent = strspn(text + i + 1 + sign, "0123456789");
        if (exponent > 0) {
            i += 1 + sign + exponent;
        }
    }
    return i;
}

int ifig_number_read(const char *text, double *value)
{
    enum { LONGEST = 128 }; /* no honest number is longer; a million digits is an attack */
    size_t length = decimal_length(text);
    if (length == 0 || text[length] != '\0' || length > LONGEST) {
        return 0;
    }
    locale_t before = enter_c_locale();
    double read = strtod(text, NULL);
    leave_c_locale(before);
    if (!isfinite(read)) {
        return 0;
    }
    *value = read;
    return 1;
}
