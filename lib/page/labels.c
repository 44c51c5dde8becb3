/* SPDX-License-Identifier: MIT */
/* Words beside marks. Each label tries the eight directions around its mark, near first, then
 * farther out with a leader, and takes the first place that is free. */
#include "canvas.h"

#include <math.h>

typedef struct Free {
    const IfigLabel *labels;
    size_t count;
    const IfigLabel *self; /* the one that looks for a place */
    const IfigLabelField *field;
} Free;

/* Labels in a row would read as one sentence without it. */
static const double BETWEEN_MM = 0.9;

static IfigBox mark_box(const IfigLabel *label)
{
    const double r = label->radius_mm;
    return (IfigBox){label->at.x - r, label->at.y - r, 2.0 * r, 2.0 * r};
}

static int is_inside(IfigBox box, IfigBox bounds)
{
    return box.x >= bounds.x && box.y >= bounds.y && box.x + box.width <= bounds.x + bounds.width &&
           box.y + box.height <= bounds.y + bounds.height;
}

/* From a mark's middle to the nearest point of a label's box. */
static IfigPoint nearest_point(IfigPoint at, IfigBox box)
{
    return (IfigPoint){fmin(fmax(at.x, box.x), box.x + box.width),
                       fmin(fmax(at.y, box.y), box.y + box.height)};
}

/* A line from a mark to its box, sampled finer than any letter, meets another box. */
static int leader_meets(IfigPoint at, IfigBox own, IfigBox other)
{
    enum { SAMPLES = 40 };
    const IfigPoint to = nearest_point(at, own);
    for (int i = 0; i <= SAMPLES; i++) {
        const double share = (double)i / SAMPLES;
        const double x = at.x + share * (to.x - at.x), y = at.y + share * (to.y - at.y);
        if (x > other.x && x < other.x + other.width && y > other.y && y < other.y + other.height) {
            return 1;
        }
    }
    return 0;
}

/* The farthest corner tells. */
static int is_in_disc(IfigBox box, const IfigLabelField *field)
{
    const double x =
        fmax(fabs(box.x - field->disc_centre.x), fabs(box.x + box.width - field->disc_centre.x));
    const double y =
        fmax(fabs(box.y - field->disc_centre.y), fabs(box.y + box.height - field->disc_centre.y));
    return field->disc_radius <= 0.0 || hypot(x, y) <= field->disc_radius;
}

static int is_free(const Free *space, IfigBox box)
{
    const IfigLabelField *const field = space->field;
    int is_taken = !is_inside(box, field->bounds) || !is_in_disc(box, field);
    for (size_t i = 0; i < space->count && !is_taken; i++) {
        const IfigLabel *const other = &space->labels[i];
        is_taken =
            ifig_box_overlap(box, mark_box(other)) ||
            (other->is_placed &&
             (ifig_box_overlap(box, ifig_box_grown(other->box, BETWEEN_MM)) ||
              (field->keeps_leaders_clear && (leader_meets(space->self->at, box, other->box) ||
                                              leader_meets(other->at, other->box, box)))));
    }
    for (size_t i = 0; i < field->obstacle_count && !is_taken; i++) {
        is_taken = ifig_box_overlap(box, field->obstacles[i]);
    }
    return !is_taken;
}

enum { DIRECTIONS = 8 };

/* Around a mark: right, left, above and below first, then the corners. */
static const IfigPoint TOWARD[DIRECTIONS] = {{1, 0},  {-1, 0},  {0, -1}, {0, 1},
                                             {1, -1}, {-1, -1}, {1, 1},  {-1, 1}};

static IfigBox candidate(const IfigLabel *label, IfigBox size, IfigPoint toward, double away)
{
    const double reach = (label->radius_mm + away) / hypot(toward.x, toward.y);
    return (IfigBox){label->at.x + toward.x * reach + 0.5 * (toward.x - 1.0) * size.width,
                     label->at.y + toward.y * reach + 0.5 * (toward.y - 1.0) * size.height,
                     size.width, size.height};
}

/* The directions, those along the label's wish first; equal ones keep their order. */
static void sort_directions(IfigPoint wish, IfigPoint sorted[DIRECTIONS])
{
    double along[DIRECTIONS];
    for (int i = 0; i < DIRECTIONS; i++) {
        const double dot =
            (TOWARD[i].x * wish.x + TOWARD[i].y * wish.y) / hypot(TOWARD[i].x, TOWARD[i].y);
        int place = i;
        for (; place > 0 && along[place - 1] < dot - 1e-9; place--) {
            along[place] = along[place - 1];
            sorted[place] = sorted[place - 1];
        }
        along[place] = dot;
        sorted[place] = TOWARD[i];
    }
}

static const double DISTANCES_MM[] = {0.9, 2.0, 3.5, 6.0, 9.0, 13.0, 18.0};
enum { DISTANCE_COUNT = sizeof DISTANCES_MM / sizeof DISTANCES_MM[0] };

static void place(const Free *space, IfigLabel *label, IfigBox size)
{
    const int directions =
        space->field->directions > 0 ? space->field->directions : (int)DIRECTIONS;
    IfigPoint toward[DIRECTIONS];
    sort_directions(label->wish, toward);
    for (int i = 0; i < space->field->distances && i < DISTANCE_COUNT; i++) {
        for (int direction = 0; direction < directions; direction++) {
            const IfigBox box = candidate(label, size, toward[direction], DISTANCES_MM[i]);
            if (is_free(space, box)) {
                label->box = box;
                label->style.align = toward[direction].x < 0.0   ? IFIG_ALIGN_RIGHT
                                     : toward[direction].x > 0.0 ? IFIG_ALIGN_LEFT
                                                                 : IFIG_ALIGN_CENTRE;
                label->is_placed = 1;
                return;
            }
        }
    }
}

static void make_ready(IfigLabel *label)
{
    label->is_placed = 0;
    label->style.align = IFIG_ALIGN_LEFT;
    label->style.level = IFIG_LEVEL_TOP;
    label->style.turn_deg = 0.0;
}

int ifig_label_place(IfigCanvas *canvas, IfigLabel *labels, size_t index,
                     const IfigLabelField *field)
{
    IfigLabel *const label = &labels[index];
    const Free space = {labels, index + 1, label, field};
    make_ready(label);
    place(&space, label, ifig_canvas_measure(canvas, &label->style, label->at, label->text));
    return label->is_placed;
}

size_t ifig_labels_place(IfigCanvas *canvas, IfigLabel *labels, size_t count, IfigBox bounds,
                         const IfigBox *obstacles, size_t obstacle_count)
{
    const IfigLabelField field = {.bounds = bounds,
                                  .obstacles = obstacles,
                                  .obstacle_count = obstacle_count,
                                  .distances = DISTANCE_COUNT};
    size_t without_room = 0;
    for (size_t i = 0; i < count; i++) {
        make_ready(&labels[i]);
    }
    for (size_t i = 0; i < count; i++) {
        const Free space = {labels, count, &labels[i], &field};
        place(&space, &labels[i],
              ifig_canvas_measure(canvas, &labels[i].style, labels[i].at, labels[i].text));
        without_room += !labels[i].is_placed;
    }
    return without_room;
}

static void draw_leader(IfigCanvas *canvas, const IfigLabel *label)
{
    const IfigPoint near = nearest_point(label->at, label->box);
    const double dx = near.x - label->at.x, dy = near.y - label->at.y, length = hypot(dx, dy);
    if (length < label->radius_mm + 1.5) {
        return;
    }
    IfigPen pen = {.ink = label->style.ink, .width_mm = 0.18, .dash = IFIG_DASH_SOLID};
    pen = label->style.halo_mm > 0.0 ? ifig_pen_haloed(pen, 0.25) : pen;
    const double from = (label->radius_mm + 0.2) / length, to = 1.0 - 0.3 / length;
    ifig_canvas_line(canvas, &pen, (IfigPoint){label->at.x + from * dx, label->at.y + from * dy},
                     (IfigPoint){label->at.x + to * dx, label->at.y + to * dy});
}

void ifig_labels_draw(IfigCanvas *canvas, const IfigLabel *labels, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (labels[i].is_placed) {
            draw_leader(canvas, &labels[i]);
        }
    }
    for (size_t i = 0; i < count; i++) {
        if (labels[i].is_placed) {
            const double across = labels[i].style.align == IFIG_ALIGN_LEFT     ? 0.0
                                  : labels[i].style.align == IFIG_ALIGN_CENTRE ? 0.5
                                                                               : 1.0;
            ifig_canvas_text(
                canvas, &labels[i].style,
                (IfigPoint){labels[i].box.x + across * labels[i].box.width, labels[i].box.y},
                labels[i].text);
        }
    }
}
