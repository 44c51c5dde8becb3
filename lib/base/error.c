/* SPDX-License-Identifier: MIT */
#include "base.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

const char *ifig_version(void)
{
    return IFIG_VERSION;
}

/* Leave one line of whole, printable UTF-8: paths and users' words hold any byte, and the message
 * may have been cut inside a character. */
static void make_printable(char *message)
{
    for (char *at = message; *at != '\0';) {
        unsigned long code_point = 0;
        size_t length = ifig_utf8_read(at, &code_point);
        if (length > 0 && ifig_is_printable(code_point)) {
            at += length;
        } else {
            size_t step = length > 0 ? length : 1;
            memset(at, '?', step);
            at += step;
        }
    }
}

IfigStatus ifig_fail(IfigError *error, IfigStatus status, const char *format, ...)
{
    if (error != NULL) {
        va_list arguments;
        va_start(arguments, format);
        error->status = status;
        int length = vsnprintf(error->message, sizeof error->message, format, arguments);
        va_end(arguments);
        if (length < 0) {
            error->message[0] = '\0';
        }
        make_printable(error->message);
    }
    return status;
}

IfigStatus ifig_check_range(const char *what, double value, double low, double high,
                            const char *unit, IfigError *error)
{
    if (isfinite(value) && value >= low && value <= high) {
        return IFIG_OK;
    }
    return ifig_fail(error, IFIG_ERROR_RANGE, "%s is %s; it must lie between %s and %s%s%s", what,
                     ifig_number_text(value, 9).text, ifig_number_text(low, 9).text,
                     ifig_number_text(high, 9).text, unit[0] != '\0' ? " " : "", unit);
}
