/* SPDX-License-Identifier: MIT */
/* Inside the page room: where the labels of a figure stand, before anything is drawn. */
#ifndef IFIG_PAGE_FIGURE_PLATE_H
#define IFIG_PAGE_FIGURE_PLATE_H

#include "messages.h"
#include "page.h"

/* figure_view.c: places of a figure, by the laws of the rooms below and never from pixels. */

/* A figure that is to be labelled. */
typedef struct IfigFigureView {
    const IfigScene *scene;
    const IfigReading *reading; /* NULL: none */
    IfigFigureFrame frame;
    double rotation[3][3]; /* these two only with a reading */
    IfigOpticAxes axes;    /* at the reading's wavelength */
} IfigFigureView;
IfigStatus ifig_view_open(const IfigScene *scene, const IfigReading *reading, IfigFigureFrame frame,
                          IfigFigureView *view, IfigError *error);
/* A point of the picture, rim 1 and y up, on the sheet. */
IfigPoint ifig_view_at(const IfigFigureView *view, double x, double y);
/* Where a ray is seen; 0 where it is not within the rim. */
int ifig_view_ray(const IfigFigureView *view, double theta_deg, double phi_deg, IfigPoint *at);
/* Where a direction of the stone's frame is seen, by the middle index; 0 where it is not. */
int ifig_view_direction(const IfigFigureView *view, const double crystal[3], IfigPoint *at);
/* The azimuth in the picture along which the slow wave vibrates at a point of the picture. 0 where
 * the two waves are too much alike to tell. Its section of the indicatrix is that across the wave
 * normal, with the middle index. */
int ifig_view_slow(const IfigFigureView *view, double x, double y, double *azimuth_deg);
/* Retardation there, nm, at the reading's wavelength; NaN: dark. */
double ifig_view_retardation(const IfigFigureView *view, double theta_deg, double phi_deg);

typedef struct IfigViewRing {
    IfigPoint at;
    int order;
} IfigViewRing;
/* The rings of a melatope that are within the rim. */
size_t ifig_view_rings(const IfigFigureView *view, size_t melatope,
                       IfigViewRing rings[IFIG_READING_RINGS_MAX]);
enum { IFIG_BRUSH_POINTS = 9 };
/* A brush followed inward from where it cuts the rim. Returns how many points were found. */
size_t ifig_view_brush(const IfigFigureView *view, size_t brush,
                       IfigPoint points[IFIG_BRUSH_POINTS]);
enum { IFIG_TRACE_POINTS = 121 };
/* The trace of the optic axial plane from rim to rim. Returns how many points it has: all or none.
 */
size_t ifig_view_axial_plane(const IfigFigureView *view, IfigPoint points[IFIG_TRACE_POINTS]);

/* figure_plan.c, figure_instrument.c: what stands where. */

enum {
    IFIG_PLAN_LABELS = 48,
    IFIG_PLAN_WORD = 40,
    IFIG_PLAN_LINES = 40,
    IFIG_PLAN_MARKS = 16,
    IFIG_PLAN_TAKEN = 800
};
typedef enum IfigPlanMarkKind {
    IFIG_PLAN_RING = 0, /* a melatope */
    IFIG_PLAN_DOT,      /* on a brush */
    IFIG_PLAN_DIAMOND,  /* a bisectrix */
    IFIG_PLAN_WEDGE     /* the way of the tilt; turned by azimuth_deg */
} IfigPlanMarkKind;
typedef struct IfigPlanMark {
    IfigPlanMarkKind kind;
    IfigPoint at;
    double radius, azimuth_deg;
} IfigPlanMark;
typedef struct IfigPlanLine {
    IfigPoint from, to;
    IfigPen pen;
    int heads; /* 0, 1 at `to`, 2 */
} IfigPlanLine;
typedef struct IfigFigurePlan {
    IfigFigureFrame frame;
    IfigLabel labels[IFIG_PLAN_LABELS]; /* those that are not placed are left out */
    char words[IFIG_PLAN_LABELS][IFIG_PLAN_WORD];
    size_t label_count;
    IfigPlanMark marks[IFIG_PLAN_MARKS];
    size_t mark_count;
    IfigPlanLine lines[IFIG_PLAN_LINES];
    size_t line_count;
    IfigPoint trace[IFIG_TRACE_POINTS]; /* of the optic axial plane */
    size_t trace_count;
    IfigBox taken[IFIG_PLAN_TAKEN]; /* by marks and lines */
    size_t taken_count;
    size_t apart_count;      /* of these, before those of the trace */
    int keeps_inside;        /* 1: words stay within the rim */
    unsigned long long keys; /* bit k: the key explains message IFIG_PAGE_SAY_KEY_FIRST + k */
    size_t without_room;     /* labels that were left out */
} IfigFigurePlan;
void ifig_figure_plan(IfigCanvas *canvas, const IfigFigureView *view, IfigLabels labels,
                      IfigFigurePlan *plan);
void ifig_figure_plan_draw(IfigCanvas *canvas, const IfigFigurePlan *plan);

/* The parts of a plan. */
IfigTextStyle ifig_plan_style(const IfigFigurePlan *plan, double scale);
/* Take a box, or the boxes along a line. */
void ifig_plan_take(IfigFigurePlan *plan, IfigBox box);
void ifig_plan_take_line(IfigFigurePlan *plan, IfigPoint from, IfigPoint to, double half_width);
/* Text with its middle at a point, if that is free. Returns 1 where it is. */
int ifig_plan_fixed(IfigCanvas *canvas, IfigFigurePlan *plan, IfigPoint middle, const char *text,
                    double scale);
/* Text beside a mark. */
typedef struct IfigPlanWish {
    IfigPoint at, wish;
    double radius;
    int distances;  /* how far away it may stand, 1 to 7 */
    int directions; /* of the eight around the mark, those nearest to the wish; 0: all */
} IfigPlanWish;
int ifig_plan_beside(IfigCanvas *canvas, IfigFigurePlan *plan, const IfigPlanWish *wish,
                     const char *text);
void ifig_plan_key(IfigFigurePlan *plan, IfigPageMessage key);
IfigPlanLine *ifig_plan_line(IfigFigurePlan *plan, IfigPlanLine line);
void ifig_plan_mark(IfigFigurePlan *plan, IfigPlanMark mark);
/* 1 where a mark would lie over no other mark, line or word; the trace does not count. */
int ifig_plan_has_room(const IfigFigurePlan *plan, IfigPoint at, double radius);
/* figure_instrument.c: polars, plate, angle scale. */
void ifig_plan_instrument(IfigCanvas *canvas, const IfigFigureView *view, IfigFigurePlan *plan);
/* figure_stone.c: what the reading tells. */
void ifig_plan_stone(IfigCanvas *canvas, const IfigFigureView *view, IfigLabels labels,
                     IfigFigurePlan *plan);

double ifig_plan_apart(IfigPoint one, IfigPoint other);
/* Melatopes within the rim; two that nearly meet share one mark. */
typedef struct IfigPlanMelatopes {
    IfigPoint at[2];
    size_t count;
    int is_double;
} IfigPlanMelatopes;

/* 1 where a point is at least so far from every melatope. */
int ifig_plan_is_clear(const IfigPlanMelatopes *melatopes, IfigPoint at, double distance);
/* As ifig_plan_beside, within the rim where there is room. */
int ifig_plan_beside_inside(IfigCanvas *canvas, IfigFigurePlan *plan, IfigPlanWish wish,
                            const char *word);
/* A word with its entry in the key, or one more without room. */
void ifig_plan_word(IfigCanvas *canvas, IfigFigurePlan *plan, IfigPlanWish wish,
                    IfigPageMessage word, IfigPageMessage key);

/* figure_axes.c: the stone's axes take their places first and get their words later. */
typedef struct IfigPlanVibration {
    IfigPoint at, reach; /* from the middle to an end */
    IfigPen pen;
    IfigPageMessage word, key;
} IfigPlanVibration;

typedef struct IfigPlanAxes {
    int has_vibrations, has_bisectrix[2];
    IfigPlanVibration slow, fast;
    IfigPoint bisectrix[2];
} IfigPlanAxes;

IfigPlanAxes ifig_plan_take_axes(const IfigFigureView *view, const IfigPlanMelatopes *melatopes,
                                 IfigFigurePlan *plan);
/* Reserve the trace of the optic axial plane. */
void ifig_plan_take_trace(const IfigFigureView *view, IfigFigurePlan *plan);
void ifig_plan_add_axes(IfigCanvas *canvas, const IfigFigureView *view, const IfigPlanAxes *axes,
                        IfigFigurePlan *plan);

/* figure_plate.c: the disc's pixels, to be freed, and drawing with them. */
typedef struct IfigFigurePlate {
    const IfigScene *scene;
    const IfigReading *reading; /* NULL: none */
    IfigLabels labels;
    IfigFigureOptions options; /* pixels: set by the renderer */
    uint8_t *rgb;              /* owned */
} IfigFigurePlate;
IfigStatus ifig_figure_plate_render(IfigFigurePlate *plate, uint32_t pixels, IfigError *error);
void ifig_figure_plate_free(IfigFigurePlate *plate);
/* Returns the keys of the labels. */
unsigned long long ifig_figure_plate_draw(IfigCanvas *canvas, const IfigFigurePlate *plate,
                                          IfigBox box, const char *alternative);

#endif
