/* SPDX-License-Identifier: MIT */
/* The options as a recipe spells them: each value reads back bit for bit. */
#include <string.h>

#include "options.h"
#include "texture.h"

static const void *place(const IfigCliOption *option, const IfigCliSettings *settings)
{
    return (const char *)settings + option->offset;
}

static void write_value(FILE *out, const IfigCliOption *option, const char *value)
{
    fprintf(out, " --%s %s", option->name, value);
}

void ifig_cli_write_plain(FILE *out, const IfigCliOption *option, const IfigCliSettings *settings)
{
    const int has_no_part =
        (option == ifig_cli_option(IFIG_CLI_ROTATION) && settings->index_count == 0) ||
        (option == ifig_cli_option(IFIG_CLI_FIELD) && ifig_cli_is_bare(settings)) ||
        (option == ifig_cli_option(IFIG_CLI_THICKNESS) && settings->layer_count > 0);
    if (!has_no_part) {
        const double *value = place(option, settings);
        write_value(out, option, ifig_cli_number(*value).text);
    }
}

void ifig_cli_write_whole(FILE *out, const IfigCliOption *option, const IfigCliSettings *settings)
{
    const int *value = place(option, settings);
    fprintf(out, " --%s %d", option->name, *value);
}

void ifig_cli_write_word(FILE *out, const IfigCliOption *option, const IfigCliSettings *settings)
{
    const int value = *(const int *)place(option, settings);
    const int index = option == ifig_cli_option(IFIG_CLI_HAND) && !settings->given[IFIG_CLI_HAND]
                          ? -1
                          : value - (int)option->low;
    if (index >= 0) {
        write_value(out, option, option->words[index]);
    }
}

/* A list of species, once the chart is open: keys alone, which need no quotes. */
void ifig_cli_write_list(FILE *out, const IfigCliOption *option, const IfigCliSettings *settings)
{
    const char *const *list = place(option, settings);
    if (*list != NULL) {
        write_value(out, option, *list);
    }
}

void ifig_cli_write_indices(FILE *out, const IfigCliOption *option, const IfigCliSettings *settings)
{
    for (int i = 0; i < settings->index_count; i++) {
        if (i == 0) {
            fprintf(out, " --%s ", option->name);
        }
        fprintf(out, "%s%s", i > 0 ? "," : "", ifig_cli_number(settings->indices[i]).text);
    }
}

void ifig_cli_write_pair(FILE *out, const IfigCliOption *option, const IfigCliSettings *settings)
{
    double values[2];
    memcpy(values, place(option, settings), sizeof values);
    fprintf(out, " --%s %s,%s", option->name, ifig_cli_number(values[0]).text,
            ifig_cli_number(values[1]).text);
}

void ifig_cli_write_lens(FILE *out, const IfigCliOption *option, const IfigCliSettings *settings)
{
    const int is_sphere = settings->lens == IFIG_LENS_SPHERE;
    if (ifig_cli_is_bare(settings)) {
        return;
    }
    fprintf(out, " --%s %s:%s", option->name, is_sphere ? "sphere" : "objective",
            ifig_cli_number(is_sphere ? settings->sphere_index : settings->aperture).text);
}

/* The last part of a file's name, quoted for a shell; its folders are the user's own affair. Bytes
 * outside printable ASCII become '?': what the file held travels in the picture. */
static void write_file_name(FILE *out, const char *path)
{
    const char *slash = strrchr(path, '/');
    fputs(" './", out);
    for (const char *at = slash != NULL ? slash + 1 : path; *at != '\0'; at++) {
        if (*at == '\'') {
            fputs("'\\''", out);
        } else {
            fputc(*at >= 0x20 && *at < 0x7f ? *at : '?', out);
        }
    }
    fputc('\'', out);
}

void ifig_cli_write_lamp(FILE *out, const IfigCliOption *option, const IfigCliSettings *settings)
{
    if (settings->lamp == IFIG_CLI_LAMP_FILE) {
        fprintf(out, " --%s", option->name);
        write_file_name(out, settings->lamp_word);
    } else if (settings->lamp == IFIG_CLI_LAMP_LINE) {
        write_value(out, option, ifig_cli_number(settings->lamp_line_nm).text);
    } else {
        write_value(out, option, ifig_cli_lamp_words[settings->lamp]);
    }
}

void ifig_cli_write_polar(FILE *out, const IfigCliOption *option, const IfigCliSettings *settings)
{
    const IfigPolar *polar = place(option, settings);
    const char *value = polar->kind == IFIG_POLAR_LEFT    ? "left"
                        : polar->kind == IFIG_POLAR_RIGHT ? "right"
                                                          : NULL;
    write_value(out, option, value != NULL ? value : ifig_cli_number(polar->azimuth_deg).text);
}

void ifig_cli_write_species_file(FILE *out, const IfigCliOption *option,
                                 const IfigCliSettings *settings)
{
    for (size_t i = 0; i < settings->species_file_count; i++) {
        fprintf(out, " --%s", option->name);
        write_file_name(out, settings->species_files[i]);
    }
}
