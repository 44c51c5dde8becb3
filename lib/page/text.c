/* SPDX-License-Identifier: MIT */
/* Text: laid out by Pango in points, drawn in millimetres. */
#include "canvas.h"

#include <string.h>

static void set_attributes(PangoLayout *layout)
{
    PangoAttrList *attributes = pango_layout_get_attributes(layout);
    attributes = attributes != NULL ? pango_attr_list_copy(attributes) : pango_attr_list_new();
    /* A letter the font has not shall be counted, not fetched from whatever else is installed. */
    pango_attr_list_insert(attributes, pango_attr_fallback_new(FALSE));
    /* A ligature is one glyph for two letters, at which some readers of a PDF's text stop. */
    pango_attr_list_insert(attributes, pango_attr_font_features_new("liga=0,clig=0,dlig=0"));
    pango_layout_set_attributes(layout, attributes);
    pango_attr_list_unref(attributes);
}

static void set_font(PangoLayout *layout, const IfigTextStyle *style)
{
    PangoFontDescription *const font = pango_font_description_new();
    pango_font_description_set_family_static(font, IFIG_FONT_FAMILY);
    pango_font_description_set_weight(font,
                                      style->is_bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_font_description_set_absolute_size(font, style->size_pt * PANGO_SCALE);
    pango_layout_set_font_description(layout, font);
    pango_font_description_free(font);
}

/* 1 where the text was taken over. */
static int set_text(PangoLayout *layout, const IfigTextStyle *style, const char *text,
                    IfigError *error)
{
    if (!ifig_utf8_is_valid(text)) {
        ifig_fail(error, IFIG_ERROR_ARGUMENT, "the text '%s' on a page is not UTF-8; give UTF-8",
                  ifig_word_text(text).text);
        return 0;
    }
    if (style->is_markup) {
        if (!pango_parse_markup(text, -1, 0, NULL, NULL, NULL, NULL)) {
            ifig_fail(error, IFIG_ERROR_SYNTAX,
                      "the text '%s' on a page is no markup; close every tag, and write &amp; and "
                      "&lt; for & and <",
                      ifig_word_text(text).text);
            return 0;
        }
        pango_layout_set_markup(layout, text, -1);
    } else {
        pango_layout_set_text(layout, text, -1);
    }
    return 1;
}

/* Where a line was broken Pango puts nothing in the blank's place. Put a blank of no width there: a
 * PDF's text then reads on from line to line, without a change to what is seen. */
static void keep_blanks(PangoLayout *layout)
{
    for (const GSList *at = pango_layout_get_lines(layout); at != NULL; at = at->next) {
        const PangoLayoutLine *const line = at->data;
        const GSList *const last = g_slist_last(line->runs);
        const PangoGlyphItem *const run = last != NULL ? last->data : NULL;
        PangoGlyphString *const glyphs = run != NULL ? run->glyphs : NULL;
        if (glyphs != NULL && glyphs->num_glyphs > 0 &&
            glyphs->glyphs[glyphs->num_glyphs - 1].glyph == PANGO_GLYPH_EMPTY) {
            hb_codepoint_t blank = 0;
            if (hb_font_get_nominal_glyph(pango_font_get_hb_font(run->item->analysis.font), ' ',
                                          &blank)) {
                glyphs->glyphs[glyphs->num_glyphs - 1].glyph = blank;
            }
        }
    }
}

static PangoLayout *lay_out(IfigCanvas *canvas, const IfigTextStyle *style, const char *text)
{
    static const PangoAlignment alignments[] = {PANGO_ALIGN_LEFT, PANGO_ALIGN_CENTER,
                                                PANGO_ALIGN_RIGHT};
    IfigError error = IFIG_ERROR_INIT;
    PangoLayout *const layout = pango_layout_new(canvas->context);
    set_font(layout, style);
    if (!set_text(layout, style, text, &error)) {
        ifig_canvas_fail(canvas, &error);
        g_object_unref(layout);
        return NULL;
    }
    set_attributes(layout);
    pango_layout_set_alignment(layout, alignments[style->align]);
    pango_layout_set_line_spacing(layout, (float)style->spacing);
    pango_layout_set_auto_dir(layout, FALSE);
    if (style->wrap_mm > 0.0) {
        pango_layout_set_width(layout,
                               (int)(style->wrap_mm / IFIG_MM_PER_POINT * PANGO_SCALE + 0.5));
        pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
    }
    if (pango_layout_get_unknown_glyphs_count(layout) > 0) {
        ifig_fail(&error, IFIG_ERROR_UNSUITABLE,
                  "the text '%s' has %s letters that " IFIG_FONT_FAMILY
                  " lacks; write it in Latin, Greek or Cyrillic letters, or mend the "
                  "package " IFIG_FONT_PACKAGE,
                  ifig_word_text(text).text,
                  ifig_number_text(pango_layout_get_unknown_glyphs_count(layout), 9).text);
        ifig_canvas_fail(canvas, &error);
        g_object_unref(layout);
        return NULL;
    }
    keep_blanks(layout);
    return layout;
}

static double from_pango(int length)
{
    return (double)length / PANGO_SCALE * IFIG_MM_PER_POINT;
}

/* The lines' own box about a point; *origin: where the layout's own origin then stands. */
static IfigBox place(PangoLayout *layout, const IfigTextStyle *style, IfigPoint at,
                     IfigPoint *origin)
{
    PangoRectangle lines;
    pango_layout_get_extents(layout, NULL, &lines);
    const double baseline = from_pango(pango_layout_get_baseline(layout));
    const double width = from_pango(lines.width), height = from_pango(lines.height);
    const double across[] = {0.0, 0.5, 1.0};
    const double down[] = {0.0, 0.5 * height, baseline, height};
    const IfigBox box = {at.x - across[style->align] * width, at.y - down[style->level], width,
                         height};
    /* A wrapped layout aligns its lines within the wrapping width. */
    *origin = (IfigPoint){box.x - from_pango(lines.x), box.y - from_pango(lines.y)};
    return box;
}

static IfigBox nothing_at(IfigPoint at)
{
    return (IfigBox){at.x, at.y, 0.0, 0.0};
}

IfigBox ifig_canvas_measure(IfigCanvas *canvas, const IfigTextStyle *style, IfigPoint at,
                            const char *text)
{
    PangoLayout *const layout = ifig_canvas_is_ready(canvas) ? lay_out(canvas, style, text) : NULL;
    if (layout == NULL) {
        return nothing_at(at);
    }
    IfigPoint origin;
    const IfigBox box = place(layout, style, at, &origin);
    g_object_unref(layout);
    return box;
}

/* Line by line; a blank behind each line that ends in a line feed, so that a PDF's words do not run
 * together there. */
static void draw_lines(cairo_t *cr, PangoLayout *layout, const PangoFontDescription *font)
{
    PangoLayout *const blank = pango_layout_new(pango_layout_get_context(layout));
    const char *const text = pango_layout_get_text(layout);
    PangoLayoutIter *const at = pango_layout_get_iter(layout);
    pango_layout_set_font_description(blank, font);
    pango_layout_set_text(blank, " ", 1);
    do {
        PangoLayoutLine *const line = pango_layout_iter_get_line_readonly(at);
        PangoRectangle box;
        pango_layout_iter_get_line_extents(at, NULL, &box);
        const double baseline = (double)pango_layout_iter_get_baseline(at) / PANGO_SCALE;
        cairo_move_to(cr, (double)box.x / PANGO_SCALE, baseline);
        pango_cairo_show_layout_line(cr, line);
        if (text[line->start_index + line->length] == '\n') {
            cairo_move_to(cr, (double)(box.x + box.width) / PANGO_SCALE, baseline);
            pango_cairo_show_layout_line(cr, pango_layout_get_line_readonly(blank, 0));
        }
    } while (pango_layout_iter_next_line(at));
    pango_layout_iter_free(at);
    g_object_unref(blank);
}

static void draw(cairo_t *cr, PangoLayout *layout, const IfigTextStyle *style)
{
    cairo_scale(cr, IFIG_MM_PER_POINT, IFIG_MM_PER_POINT);
    if (style->halo_mm > 0.0) {
        cairo_new_path(cr);
        pango_cairo_layout_path(cr, layout);
        cairo_set_source_rgb(cr, style->halo.red, style->halo.green, style->halo.blue);
        cairo_set_line_width(cr, 2.0 * style->halo_mm / IFIG_MM_PER_POINT);
        cairo_set_line_join(cr, CAIRO_LINE_JOIN_ROUND);
        cairo_stroke(cr);
    }
    cairo_set_source_rgb(cr, style->ink.red, style->ink.green, style->ink.blue);
    draw_lines(cr, layout, pango_layout_get_font_description(layout));
    cairo_new_path(cr);
}

IfigBox ifig_canvas_text(IfigCanvas *canvas, const IfigTextStyle *style, IfigPoint at,
                         const char *text)
{
    PangoLayout *const layout = ifig_canvas_is_ready(canvas) ? lay_out(canvas, style, text) : NULL;
    if (layout == NULL) {
        return nothing_at(at);
    }
    IfigPoint origin;
    const IfigBox box = place(layout, style, at, &origin);
    cairo_save(canvas->cr);
    cairo_translate(canvas->cr, at.x, at.y);
    cairo_rotate(canvas->cr, -style->turn_deg * IFIG_DEGREE);
    cairo_translate(canvas->cr, origin.x - at.x, origin.y - at.y);
    draw(canvas->cr, layout, style);
    cairo_restore(canvas->cr);
    g_object_unref(layout);
    return box;
}

IfigBox ifig_canvas_passage(IfigCanvas *canvas, IfigRole role, const IfigTextStyle *style,
                            IfigPoint at, const char *text)
{
    ifig_canvas_begin(canvas, role, NULL);
    const IfigBox box = ifig_canvas_text(canvas, style, at, text);
    ifig_canvas_end(canvas);
    return box;
}
