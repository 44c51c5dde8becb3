/* SPDX-License-Identifier: MIT */
/* The one font. Where it is missing Pango would set a page without letters, or in a font of the
 * machine's own, and call that a success. */
#include "canvas.h"

#include <fontconfig/fontconfig.h>

/* Upright and of the usual width: a family of which only a bold or a narrow face is left would set
 * every word in that. */
static int is_installed(const char *family, int weight)
{
    FcPattern *const wanted =
        FcPatternBuild(NULL, FC_FAMILY, FcTypeString, (const FcChar8 *)family, FC_WEIGHT,
                       FcTypeInteger, weight, FC_SLANT, FcTypeInteger, FC_SLANT_ROMAN, FC_WIDTH,
                       FcTypeInteger, FC_WIDTH_NORMAL, (char *)NULL);
    FcObjectSet *const nothing_more = FcObjectSetBuild(FC_FAMILY, (char *)NULL);
    FcFontSet *const found =
        wanted != NULL && nothing_more != NULL ? FcFontList(NULL, wanted, nothing_more) : NULL;
    const int is_there = found != NULL && found->nfont > 0;
    if (found != NULL) {
        FcFontSetDestroy(found);
    }
    if (nothing_more != NULL) {
        FcObjectSetDestroy(nothing_more);
    }
    if (wanted != NULL) {
        FcPatternDestroy(wanted);
    }
    return is_there;
}

/* Letters are set as their outlines are, without fitting them to a raster: lines then break at the
 * same words in a PDF, an SVG and a PNG of any resolution. */
static void set_options(PangoContext *context)
{
    cairo_font_options_t *const options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(context, options);
    cairo_font_options_destroy(options);
    pango_cairo_context_set_resolution(context, 72.0); /* a point is a unit */
    pango_context_set_round_glyph_positions(context, FALSE);
    pango_context_set_language(context, pango_language_from_string("en-GB"));
    pango_context_set_base_dir(context, PANGO_DIRECTION_LTR);
}

IfigStatus ifig_fonts_open(PangoFontMap **fonts, PangoContext **context, IfigError *error)
{
    if (!is_installed(IFIG_FONT_FAMILY, FC_WEIGHT_REGULAR) ||
        !is_installed(IFIG_FONT_FAMILY, FC_WEIGHT_BOLD)) {
        return ifig_fail(error, IFIG_ERROR_MISSING,
                         "the font " IFIG_FONT_FAMILY " is not installed, whole and in regular and "
                         "bold, and a page cannot be set without it; install the "
                         "package " IFIG_FONT_PACKAGE);
    }
    *fonts = pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT);
    if (*fonts == NULL) {
        return ifig_fail(error, IFIG_ERROR_MISSING,
                         "the installed Pango was built without FreeType; install libpango-1.0-0 "
                         "of the distribution");
    }
    *context = pango_font_map_create_context(*fonts);
    set_options(*context);
    return IFIG_OK;
}
