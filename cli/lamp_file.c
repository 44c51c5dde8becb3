/* SPDX-License-Identifier: MIT */
#include "lamp_file.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

#include "output.h"

static const char BLANKS[] = " \t\r";

enum { LONGEST_LINE = 200, COLUMNS = 2 };

/* The table as far as it has been read. */
typedef struct Table {
    const char *name;
    size_t line;
    double *wavelength_nm, *power;
    size_t count;
} Table;

static IfigCliStatus refuse(const Table *table, const char *what, const char *line)
{
    return ifig_cli_complain(IFIG_CLI_DATA, "%s:%zu: '%s' %s", ifig_cli_shown(table->name).text,
                             table->line, ifig_cli_shown(line).text, what);
}

/* Cut a line into its values; how many, or 3 for more than two. */
static int split(char *line, char *field[COLUMNS])
{
    int count = 0;
    char *at = line + strspn(line, BLANKS);
    while (*at != '\0' && count <= COLUMNS) {
        char *end = at + strcspn(at, ", \t\r");
        const char *next = end + strspn(end, BLANKS);
        next += *next == ',';
        next += strspn(next, BLANKS);
        const int is_last = *end == '\0';
        *end = '\0';
        if (count < COLUMNS) {
            field[count] = at;
        }
        count++;
        at = is_last ? end : line + (next - line);
    }
    return count;
}

static IfigCliStatus take_values(Table *table, char *field[COLUMNS], const char *line)
{
    double wavelength, power;
    if (!ifig_cli_read_number(field[0], &wavelength) || !ifig_cli_read_number(field[1], &power)) {
        return refuse(table, "is not two numbers; write them as 550,98.5", line);
    }
    if (!(wavelength >= 1.0 && wavelength <= 100000.0)) {
        return refuse(table, "has a wavelength out of range; give 1 to 100000 nm", line);
    }
    if (table->count > 0 && wavelength <= table->wavelength_nm[table->count - 1]) {
        return refuse(table,
                      "does not lie above the wavelength before it; sort the lines by rising "
                      "wavelength, each once",
                      line);
    }
    if (power < 0.0) {
        return refuse(table, "has a negative power; give 0 or more", line);
    }
    table->wavelength_nm[table->count] = wavelength;
    table->power[table->count] = power;
    table->count++;
    return IFIG_CLI_OK;
}

static IfigCliStatus take_line(Table *table, const char *start, size_t length)
{
    char line[LONGEST_LINE + 1], cut[LONGEST_LINE + 1];
    char *field[COLUMNS] = {NULL, NULL};
    snprintf(line, sizeof line, "%.*s", (int)(length < LONGEST_LINE ? length : LONGEST_LINE),
             start);
    line[strcspn(line, "\r")] = '\0';
    memcpy(cut, line, sizeof cut);
    cut[strcspn(cut, "#")] = '\0';
    if (length > LONGEST_LINE && strlen(cut) == LONGEST_LINE) {
        return refuse(table, "is too long a line; write two numbers, as in 550,98.5", line);
    }
    if (strchr(cut, ';') != NULL) {
        return refuse(table,
                      "holds a semicolon; put a comma between the two numbers and a point in "
                      "them, as in 550,98.5",
                      line);
    }
    const int count = split(cut, field);
    if (count == 0) {
        return IFIG_CLI_OK;
    }
    const int is_heading = table->count == 0 && isalpha((unsigned char)field[0][0]) &&
                           strcmp(field[0], "nan") != 0 && strcmp(field[0], "inf") != 0;
    if (is_heading) {
        return IFIG_CLI_OK;
    }
    if (count != COLUMNS) {
        return refuse(table,
                      count < COLUMNS
                          ? "is one value; write a wavelength and a power, as in 550,98.5"
                          : "is more than two values; decimals take a point, as in 550,98.5",
                      line);
    }
    return take_values(table, field, line);
}

static IfigCliStatus take_lines(Table *table, const char *text)
{
    static const char byte_order_mark[] = "\xef\xbb\xbf";
    IfigCliStatus status = IFIG_CLI_OK;
    if (strncmp(text, byte_order_mark, 3) == 0) {
        text += 3;
    }
    while (status == IFIG_CLI_OK && *text != '\0') {
        const size_t length = strcspn(text, "\n");
        table->line++;
        status = take_line(table, text, length);
        text += length + (text[length] == '\n');
    }
    if (status == IFIG_CLI_OK && table->count < 2) {
        status = ifig_cli_complain(IFIG_CLI_DATA,
                                   "%s:%zu: the table ends with %zu line%s of values; "
                                   "write two or more, each a wavelength in nm and a power, as in "
                                   "550,98.5",
                                   ifig_cli_shown(table->name).text, table->line, table->count,
                                   table->count == 1 ? "" : "s");
    }
    return status;
}

static char *write_table(const Table *table)
{
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    if (out == NULL) {
        return NULL;
    }
    fputs("wavelength_nm,power\n", out);
    for (size_t i = 0; i < table->count; i++) {
        fprintf(out, "%s,%s\n", ifig_cli_number(table->wavelength_nm[i]).text,
                ifig_cli_number(table->power[i]).text);
    }
    const int failed = ferror(out);
    if (fclose(out) != 0 || failed) {
        free(text);
        return NULL;
    }
    return text;
}

static IfigCliStatus make_lamp(const Table *table, IfigLamp **lamp, char **written)
{
    IfigError error = IFIG_ERROR_INIT;
    const IfigStatus status =
        ifig_lamp_create_spectrum(table->wavelength_nm, table->power, table->count, lamp, &error);
    if (status != IFIG_OK) {
        return ifig_cli_complain(ifig_cli_exit_status(status, IFIG_CLI_FILE), "%s: %s",
                                 ifig_cli_shown(table->name).text, error.message);
    }
    *written = write_table(table);
    return *written != NULL ? IFIG_CLI_OK
                            : ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for the lamp");
}

IfigCliStatus ifig_cli_read_lamp_table(const char *name, const char *text, IfigLamp **lamp,
                                       char **table)
{
    size_t lines = 1;
    for (const char *at = text; (at = strchr(at, '\n')) != NULL; at++) {
        lines++;
    }
    Table read = {name, 0, malloc(lines * sizeof(double)), malloc(lines * sizeof(double)), 0};
    IfigCliStatus status = read.wavelength_nm != NULL && read.power != NULL
                               ? take_lines(&read, text)
                               : ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for the lamp");
    if (status == IFIG_CLI_OK) {
        status = make_lamp(&read, lamp, table);
    }
    free(read.wavelength_nm);
    free(read.power);
    return status;
}
