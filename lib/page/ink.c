/* SPDX-License-Identifier: MIT */
/* Colours of the page, pens, boxes. */
#include "page.h"

/* Okabe and Ito, Color Universal Design (2008): colours that people with any common kind of colour
 * blindness tell apart; by their published 8-bit values, from memory. */
IfigInk ifig_ink(IfigInkName name)
{
    static const unsigned char inks[IFIG_INK_COUNT][3] = {
        [IFIG_INK_TEXT] = {26, 28, 32},      [IFIG_INK_MUTED] = {88, 92, 99},
        [IFIG_INK_AXIS] = {140, 144, 150},   [IFIG_INK_GRID] = {226, 228, 231},
        [IFIG_INK_WHITE] = {255, 255, 255},  [IFIG_INK_BLUE] = {0, 114, 178},
        [IFIG_INK_VERMILION] = {213, 94, 0}, [IFIG_INK_GREEN] = {0, 158, 115},
        [IFIG_INK_ORANGE] = {230, 159, 0},   [IFIG_INK_SKY] = {86, 180, 233},
        [IFIG_INK_PURPLE] = {204, 121, 167},
    };
    const unsigned char *const ink = inks[name];
    return (IfigInk){ink[0] / 255.0, ink[1] / 255.0, ink[2] / 255.0};
}

static IfigInk farthest_from(IfigInk ink)
{
    const double luma = 0.2126 * ink.red + 0.7152 * ink.green + 0.0722 * ink.blue;
    return ifig_ink(luma < 0.55 ? IFIG_INK_WHITE : IFIG_INK_TEXT);
}

IfigPen ifig_pen(IfigInkName ink, double width_mm, IfigDash dash)
{
    return (IfigPen){.ink = ifig_ink(ink), .width_mm = width_mm, .dash = dash};
}

IfigPen ifig_pen_haloed(IfigPen pen, double halo_mm)
{
    pen.halo_mm = halo_mm;
    pen.halo = farthest_from(pen.ink);
    return pen;
}

IfigTextStyle ifig_text_style(double size_pt, IfigInkName ink)
{
    return (IfigTextStyle){.size_pt = size_pt, .ink = ifig_ink(ink), .spacing = 1.25};
}

IfigTextStyle ifig_text_haloed(IfigTextStyle style, double halo_mm)
{
    style.halo_mm = halo_mm;
    style.halo = farthest_from(style.ink);
    return style;
}

int ifig_box_overlap(IfigBox one, IfigBox other)
{
    return one.x < other.x + other.width && other.x < one.x + one.width &&
           one.y < other.y + other.height && other.y < one.y + one.height;
}

IfigBox ifig_box_grown(IfigBox box, double by)
{
    return (IfigBox){box.x - by, box.y - by, box.width + 2.0 * by, box.height + 2.0 * by};
}
