/* SPDX-License-Identifier: MIT */
#include "json.h"

#include <math.h>

#include "output.h"

json_t *ifig_cli_json_number(double value)
{
    return isfinite(value) ? json_real(value + 0.0) : json_null();
}

json_t *ifig_cli_json_numbers(const double *values, int count)
{
    json_t *array = json_array();
    for (int i = 0; i < count; i++) {
        if (json_array_append_new(array, ifig_cli_json_number(values[i])) != 0) {
            json_decref(array);
            return NULL;
        }
    }
    return array;
}

IfigCliStatus ifig_cli_print_json(json_t *value)
{
    /* JSON_REAL_PRECISION(17), in full, since the macro casts with a sign. */
    const size_t flags = JSON_INDENT(2) | ((size_t)(17 & 0x1F) << 11);
    if (value == NULL) {
        return ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for the answer");
    }
    json_dumpf(value, stdout, flags);
    fputc('\n', stdout);
    json_decref(value);
    return IFIG_CLI_OK; /* whether it arrived, the end of the program asks */
}
