/* SPDX-License-Identifier: MIT */
/* What stands where on a figure: texts, marks and lines, none over another; then the drawing. */
#include "figure_plate.h"

#include <math.h>
#include <string.h>

/* Text of 5.5 points on a figure of 44 mm and less, 8.5 on one of 84, slowly more beyond. */
static double size_for(double side_mm)
{
    static const double least = 5.5, knee_mm = 84.0;
    const double size =
        side_mm < knee_mm ? 2.2 + 0.075 * side_mm : 8.5 + 0.03 * (side_mm - knee_mm);
    return fmax(size, least);
}

IfigFigureFrame ifig_figure_frame(IfigBox box, IfigLabels labels)
{
    static const double top = 1.6, sides = 1.6, bottom = 2.9, least_em = 2.5;
    const double side = fmin(box.width, box.height);
    IfigFigureFrame frame = {
        .box = box,
        .centre = {box.x + 0.5 * box.width, box.y + 0.5 * box.height},
        .radius = 0.5 * side,
        .size_pt = size_for(side),
    };
    frame.em = frame.size_pt * IFIG_MM_PER_POINT;
    if (labels != IFIG_LABELS_NONE) {
        frame.radius =
            0.5 * fmin(box.width - 2.0 * sides * frame.em, box.height - (top + bottom) * frame.em);
        frame.centre.y = box.y + 0.5 * (box.height - (top + bottom) * frame.em) + top * frame.em;
        frame.radius = frame.radius < least_em * frame.em ? 0.0 : frame.radius;
    }
    return frame;
}

IfigTextStyle ifig_plan_style(const IfigFigurePlan *plan, double scale)
{
    static const double halo_em = 0.17;
    return ifig_text_haloed(ifig_text_style(scale * plan->frame.size_pt, IFIG_INK_TEXT),
                            halo_em * plan->frame.em);
}

void ifig_plan_take(IfigFigurePlan *plan, IfigBox box)
{
    if (plan->taken_count < IFIG_PLAN_TAKEN) {
        plan->taken[plan->taken_count++] = box;
    }
}

void ifig_plan_take_line(IfigFigurePlan *plan, IfigPoint from, IfigPoint to, double half_width)
{
    const double length = hypot(to.x - from.x, to.y - from.y);
    const int pieces = (int)ceil(length / (1.5 * half_width)) + 1;
    for (int i = 0; i <= pieces; i++) {
        const double share = (double)i / pieces;
        const IfigPoint at = {from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)};
        ifig_plan_take(plan, (IfigBox){at.x - half_width, at.y - half_width, 2.0 * half_width,
                                       2.0 * half_width});
    }
}

static IfigLabel *new_label(IfigFigurePlan *plan, const char *text, double scale)
{
    if (plan->label_count == IFIG_PLAN_LABELS) {
        plan->without_room++;
        return NULL;
    }
    const size_t index = plan->label_count;
    const size_t length = strnlen(text, IFIG_PLAN_WORD - 1);
    memcpy(plan->words[index], text, length);
    plan->words[index][length] = '\0';
    plan->labels[index] =
        (IfigLabel){.text = plan->words[index], .style = ifig_plan_style(plan, scale)};
    return &plan->labels[index];
}

static int is_within(IfigBox box, IfigBox bounds)
{
    return box.x >= bounds.x && box.y >= bounds.y && box.x + box.width <= bounds.x + bounds.width &&
           box.y + box.height <= bounds.y + bounds.height;
}

static int is_free(const IfigFigurePlan *plan, IfigBox box)
{
    const double between = 0.2 * plan->frame.em;
    int is_taken = !is_within(box, plan->frame.box);
    for (size_t i = 0; i < plan->taken_count && !is_taken; i++) {
        is_taken = ifig_box_overlap(box, plan->taken[i]);
    }
    for (size_t i = 0; i < plan->label_count && !is_taken; i++) {
        is_taken = plan->labels[i].is_placed &&
                   ifig_box_overlap(box, ifig_box_grown(plan->labels[i].box, between));
    }
    return !is_taken;
}

int ifig_plan_fixed(IfigCanvas *canvas, IfigFigurePlan *plan, IfigPoint middle, const char *text,
                    double scale)
{
    IfigLabel *const label = new_label(plan, text, scale);
    if (label == NULL) {
        return 0;
    }
    label->at = middle;
    label->style.align = IFIG_ALIGN_CENTRE;
    label->style.level = IFIG_LEVEL_MIDDLE;
    label->box = ifig_canvas_measure(canvas, &label->style, middle, text);
    label->style.level = IFIG_LEVEL_TOP;
    if (!is_free(plan, label->box)) {
        return 0;
    }
    label->is_placed = 1;
    plan->label_count++;
    return 1;
}

int ifig_plan_beside(IfigCanvas *canvas, IfigFigurePlan *plan, const IfigPlanWish *wish,
                     const char *text)
{
    const IfigLabelField field = {
        .bounds = plan->frame.box,
        .obstacles = plan->taken,
        .obstacle_count = plan->taken_count,
        .disc_centre = plan->frame.centre,
        .disc_radius = plan->keeps_inside ? plan->frame.radius - 0.15 * plan->frame.em : 0.0,
        .keeps_leaders_clear = 1,
        .distances = wish->distances,
        .directions = wish->directions};
    IfigLabel *const label = new_label(plan, text, 1.0);
    if (label == NULL) {
        return 0;
    }
    label->at = wish->at;
    label->wish = wish->wish;
    label->radius_mm = wish->radius;
    if (!ifig_label_place(canvas, plan->labels, plan->label_count, &field)) {
        return 0;
    }
    plan->label_count++;
    return 1;
}

void ifig_plan_key(IfigFigurePlan *plan, IfigPageMessage key)
{
    plan->keys |= 1ULL << (unsigned)(key - IFIG_PAGE_SAY_KEY_FIRST);
}

IfigPlanLine *ifig_plan_line(IfigFigurePlan *plan, IfigPlanLine line)
{
    IfigPlanLine *const place =
        &plan->lines[plan->line_count < IFIG_PLAN_LINES ? plan->line_count++ : IFIG_PLAN_LINES - 1];
    *place = line;
    return place;
}

void ifig_plan_mark(IfigFigurePlan *plan, IfigPlanMark mark)
{
    if (plan->mark_count < IFIG_PLAN_MARKS) {
        plan->marks[plan->mark_count++] = mark;
        ifig_plan_take(plan, (IfigBox){mark.at.x - mark.radius, mark.at.y - mark.radius,
                                       2.0 * mark.radius, 2.0 * mark.radius});
    }
}

int ifig_plan_has_room(const IfigFigurePlan *plan, IfigPoint at, double radius)
{
    const IfigBox box = {at.x - radius, at.y - radius, 2.0 * radius, 2.0 * radius};
    int is_taken = 0;
    for (size_t i = 0; i < plan->mark_count && !is_taken; i++) {
        const IfigPlanMark *const other = &plan->marks[i];
        is_taken = hypot(other->at.x - at.x, other->at.y - at.y) < other->radius + radius;
    }
    for (size_t i = 0; i < plan->label_count && !is_taken; i++) {
        is_taken = plan->labels[i].is_placed && ifig_box_overlap(box, plan->labels[i].box);
    }
    for (size_t i = 0; i < plan->apart_count && !is_taken; i++) {
        is_taken = ifig_box_overlap(box, plan->taken[i]);
    }
    return !is_taken;
}

void ifig_figure_plan(IfigCanvas *canvas, const IfigFigureView *view, IfigLabels labels,
                      IfigFigurePlan *plan)
{
    memset(plan, 0, sizeof *plan);
    plan->frame = view->frame;
    if (labels == IFIG_LABELS_NONE || plan->frame.radius <= 0.0) {
        return;
    }
    ifig_plan_instrument(canvas, view, plan);
    if (view->reading != NULL) {
        ifig_plan_stone(canvas, view, labels, plan);
    }
}
