/* SPDX-License-Identifier: MIT */
#include "describe.h"

#include <math.h>

#include "colour.h"
#include "layers.h"
#include "plate.h"
#include "range.h"
#include "strain.h"
#include "texture.h"
#include "turn.h"

const char ifig_cli_evidence[] =
    "A figure is evidence, not an identification: confirm it by refractive index, specific gravity "
    "or spectrum.";

const char *ifig_cli_character_name(IfigOpticCharacter character)
{
    static const char *const names[] = {"isotropic", "uniaxial", "biaxial", "aggregate"};
    return names[character];
}

const char *ifig_cli_sign_name(int optic_sign)
{
    return optic_sign > 0 ? "positive" : optic_sign < 0 ? "negative" : "";
}

const char *ifig_cli_stone_name(const IfigCliScene *scene)
{
    return scene->measured != NULL ? "stone of measured indices"
                                   : ifig_species_text(scene->species, IFIG_TEXT_KEY);
}

const char *ifig_cli_view_word(const IfigCliSettings *settings)
{
    return ifig_view_name((IfigView)settings->view);
}

static const char *view_phrase(const IfigCliSettings *settings, const IfigCliScene *scene)
{
    switch ((IfigView)settings->view) {
    case IFIG_VIEW_DEFAULT:
        return "each layer along its optic axis, acute bisectrix or Z";
    case IFIG_VIEW_C:
        return "along the optic axis";
    case IFIG_VIEW_OPTIC_AXIS:
        return scene->facts.character == IFIG_UNIAXIAL ? "along the optic axis"
                                                       : "along an optic axis";
    case IFIG_VIEW_ACUTE_BISECTRIX:
        return "along the acute bisectrix";
    case IFIG_VIEW_OBTUSE_BISECTRIX:
        return "along the obtuse bisectrix";
    case IFIG_VIEW_OPTIC_NORMAL:
        return "along the optic normal";
    case IFIG_VIEW_X:
        return "along X";
    case IFIG_VIEW_Y:
        return "along Y";
    default:
        return scene->facts.character == IFIG_UNIAXIAL ? "along the optic axis" : "along Z";
    }
}

static void describe_stone(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    const char *sign = ifig_cli_sign_name(scene->facts.optic_sign);
    fputs(ifig_cli_stone_name(scene), out);
    for (int i = 0; i < settings->index_count; i++) {
        fprintf(out, "%s%s", i == 0 ? " " : "/", ifig_cli_number(settings->indices[i]).text);
    }
    if (scene->facts.character == IFIG_ISOTROPIC) {
        fputs(", singly refractive", out);
    } else {
        fprintf(out, ", %s%s%s", ifig_cli_character_name(scene->facts.character),
                sign[0] != '\0' ? " " : "", sign);
    }
    if (scene->facts.is_optically_active) {
        const int is_left = scene->measured != NULL ? settings->rotation_deg_per_mm < 0
                                                    : settings->hand == IFIG_HAND_LEFT;
        fputs(is_left ? ", left-handed" : ", right-handed", out);
    }
}

static void describe_lens(FILE *out, const IfigCliSettings *settings)
{
    if (settings->lens == IFIG_LENS_NONE) {
        fputs(", no lens, a cone", out);
    } else if (settings->lens == IFIG_LENS_OBJECTIVE) {
        fprintf(out, ", objective NA %s", ifig_cli_number(settings->aperture).text);
    } else if (settings->sphere_index != 1.5) {
        fprintf(out, ", sphere lens of index %s", ifig_cli_number(settings->sphere_index).text);
    } else {
        fputs(", sphere lens", out);
    }
    fprintf(out, " to %s deg", ifig_cli_rounded(settings->field_deg, 4).text);
    if (settings->immersion_index != 1.0) {
        fprintf(out, " in a liquid of %s", ifig_cli_number(settings->immersion_index).text);
    }
}

void ifig_cli_describe_lamp(FILE *out, const IfigCliSettings *settings)
{
    static const char *const names[] = {"daylight", "tungsten light", "white LED light",
                                        "fluorescent light", "sodium light"};
    if (settings->lamp == IFIG_CLI_LAMP_FILE) {
        fputs(", a measured lamp", out);
    } else if (settings->lamp == IFIG_CLI_LAMP_LINE) {
        fprintf(out, ", light of %s nm", ifig_cli_number(settings->lamp_line_nm).text);
    } else {
        fprintf(out, ", %s", names[settings->lamp]);
    }
}

/* How the polars stand: +1 crossed, -1 parallel, 0 neither. */
static int polars_kind(const IfigCliSettings *settings)
{
    const IfigPolar *lower = &settings->polariser, *upper = &settings->analyser;
    if (lower->kind != IFIG_POLAR_LINEAR || upper->kind != IFIG_POLAR_LINEAR) {
        const int are_both = lower->kind != IFIG_POLAR_LINEAR && upper->kind != IFIG_POLAR_LINEAR;
        return !are_both ? 0 : lower->kind != upper->kind ? 1 : -1;
    }
    const double between = fabs(remainder(upper->azimuth_deg - lower->azimuth_deg, 180.0));
    return between > 90.0 - 1e-9 ? 1 : between < 1e-9 ? -1 : 0;
}

static void describe_polar(FILE *out, const char *name, const IfigPolar *polar)
{
    fprintf(out, ", %s ", name);
    if (polar->kind == IFIG_POLAR_LINEAR) {
        fprintf(out, "at %s deg", ifig_cli_number(polar->azimuth_deg).text);
    } else {
        fputs(polar->kind == IFIG_POLAR_LEFT ? "left circular" : "right circular", out);
    }
}

static void describe_polars(FILE *out, const IfigCliSettings *settings)
{
    const int kind = polars_kind(settings);
    const int is_circular = settings->polariser.kind != IFIG_POLAR_LINEAR;
    if (kind == 0) {
        describe_polar(out, "polariser", &settings->polariser);
        describe_polar(out, "analyser", &settings->analyser);
        return;
    }
    fprintf(out, ", %s%s polars", kind > 0 ? "crossed" : "parallel",
            is_circular ? " circular" : "");
    const double turn = remainder(settings->polariser.azimuth_deg, kind > 0 ? 90.0 : 180.0);
    if (!is_circular && turn != 0.0) {
        fprintf(out, " turned to %s deg", ifig_cli_number(settings->polariser.azimuth_deg).text);
    }
}

void ifig_cli_describe(FILE *out, const IfigCliSettings *settings, const IfigCliScene *scene)
{
    if (settings->layer_count > 0) {
        ifig_cli_describe_layers(out, settings, scene);
    } else {
        describe_stone(out, settings, scene);
    }
    if (scene->facts.character == IFIG_UNIAXIAL || scene->facts.character == IFIG_BIAXIAL) {
        fprintf(out, ", %s", view_phrase(settings, scene));
    }
    if (settings->tilt_deg != 0.0) {
        fprintf(out, " tilted %s deg toward %s deg", ifig_cli_number(settings->tilt_deg).text,
                ifig_cli_number(settings->tilt_azimuth_deg).text);
    }
    if (settings->stage_deg != 0.0) {
        fprintf(out, ", stage at %s deg", ifig_cli_number(settings->stage_deg).text);
    }
    if (settings->layer_count == 0) {
        fprintf(out, ", %s mm", ifig_cli_number(settings->thickness_mm).text);
    }
    ifig_cli_describe_colour(out, settings, scene);
    ifig_cli_describe_strain(out, settings);
    ifig_cli_describe_texture(out, settings);
    describe_lens(out, settings);
    ifig_cli_describe_lamp(out, settings);
    describe_polars(out, settings);
    ifig_cli_describe_plate(out, settings);
    ifig_cli_describe_range(out, settings, scene);
}

/* Where the optic axes of a biaxial stone come out, seen along its acute bisectrix. */
static IfigCliSight melatopes(const IfigCliSettings *settings, const IfigCliScene *scene)
{
    IfigCliSight sight = {""};
    IfigOpticAxes axes;
    if (ifig_optic_axes(scene->species, 589.3, &axes, NULL) != IFIG_OK || axes.count != 2) {
        return sight;
    }
    const double two_e =
        ifig_apparent_optic_angle_deg(axes.n[1], axes.two_v_deg, settings->immersion_index);
    const char *medium = settings->immersion_index > 1.0 ? "in the liquid" : "in air";
    const IfigCliNumber two_v = ifig_cli_rounded(axes.two_v_deg, 3);
    if (isnan(two_e)) {
        snprintf(sight.text, sizeof sight.text, "2V %s deg: the optic axes cannot leave the stone",
                 two_v.text);
    } else {
        snprintf(sight.text, sizeof sight.text,
                 "2V %s deg, 2E %s deg %s: the melatopes lie %s field", two_v.text,
                 ifig_cli_rounded(two_e, 3).text, medium,
                 0.5 * two_e < settings->field_deg ? "in the" : "beyond the");
    }
    return sight;
}

IfigCliSight ifig_cli_sight(const IfigCliSettings *settings, const IfigCliScene *scene)
{
    static const IfigCliSight
        nothing = {""},
        dark = {"no figure: dark but for the faint light that oblique faces let through"},
        cross = {"a dark cross, and rings about its centre where the stone is thick enough"},
        eye = {"a cross among rings, its arms ending at the bull's eye that optical rotation makes "
               "of the centre"};
    const int is_active = scene->facts.is_optically_active;
    const int is_crossed =
        polars_kind(settings) == 1 && settings->polariser.kind == IFIG_POLAR_LINEAR;
    /* A plate colours what was dark; what moves may take the sight away. */
    const int stays = settings->command != IFIG_CLI_TURN ||
                      ifig_cli_is_moved(settings, IFIG_CLI_STAGE) ||
                      ifig_cli_is_moved(settings, IFIG_CLI_THICKNESS);
    const int is_plain = settings->layer_count == 0 && settings->stress_mpa == 0.0 &&
                         settings->range == IFIG_CLI_RANGE_NONE;
    if (settings->plate != IFIG_PLATE_NONE || !stays || !is_plain || ifig_cli_is_bare(settings)) {
        return nothing;
    }
    if (scene->facts.character == IFIG_ISOTROPIC) {
        return is_crossed && !is_active ? dark : nothing;
    }
    if (settings->tilt_deg != 0.0) {
        return nothing;
    }
    if (scene->facts.character == IFIG_UNIAXIAL) {
        const int is_along_axis = settings->view == IFIG_VIEW_C || settings->view == IFIG_VIEW_Z ||
                                  settings->view == IFIG_VIEW_OPTIC_AXIS;
        return !is_crossed || !is_along_axis ? nothing : is_active ? eye : cross;
    }
    return settings->view == IFIG_VIEW_ACUTE_BISECTRIX ? melatopes(settings, scene) : nothing;
}

int ifig_cli_default_file_name(const IfigCliSettings *settings, const IfigCliScene *scene,
                               char *name, size_t size)
{
    const IfigCliStem stem = settings->layer_count > 0 ? ifig_cli_layers_stem(settings, scene)
                                                       : ifig_cli_stone_stem(settings, scene);
    int used = snprintf(name, size, "%s", scene->measured != NULL ? "indices" : stem.text);
    for (int i = 0; i < settings->index_count && used > 0 && (size_t)used < size; i++) {
        used += snprintf(name + used, size - (size_t)used, "_%s",
                         ifig_cli_number(settings->indices[i]).text);
    }
    const int has_view = settings->view != IFIG_VIEW_DEFAULT;
    if (used > 0 && (size_t)used < size) {
        used += snprintf(name + used, size - (size_t)used, "_%s",
                         has_view ? ifig_cli_view_word(settings) : "usual");
    }
    if (used > 0 && (size_t)used < size && settings->layer_count == 0) {
        used += snprintf(name + used, size - (size_t)used, "_%smm",
                         ifig_cli_number(settings->thickness_mm).text);
    }
    if (used > 0 && (size_t)used < size) {
        used += snprintf(
            name + used, size - (size_t)used, "%s%s%s.png", ifig_cli_range_name(settings).text,
            ifig_cli_is_face(settings) ? "_face" : "", ifig_cli_motion_name(settings).text);
    }
    return used > 0 && (size_t)used < size;
}
