/* SPDX-License-Identifier: MIT */
/* Inside the page room: the chart of interference colours. Lengths in mm. */
#ifndef IFIG_PAGE_CHART_H
#define IFIG_PAGE_CHART_H

#include "messages.h"
#include "page.h"

#define IFIG_CHART_WIDTH  279.0
#define IFIG_CHART_HEIGHT 210.0
#define IFIG_CHART_MARGIN 12.0

enum { IFIG_CHART_SPECIES_MAX = 256, IFIG_CHART_STRIPS_MAX = 4, IFIG_CHART_ORDERS_MAX = 8 };

/* Where all stands that shares the axis of retardation. */
typedef struct IfigChartFrame {
    const IfigPageChart *chart;
    double left, width; /* of the axis */
    double order_nm, most_nm;
} IfigChartFrame;
double ifig_chart_x(const IfigChartFrame *frame, double retardation_nm);

/* chart_fan.c: thickness against retardation, the lines of birefringence, the species at their
 * ends. box: of the axes; names stand above it, up to `room` mm high, and to its right. */
void ifig_chart_fan(IfigCanvas *canvas, const IfigChartFrame *frame, IfigBox box, double room);

/* Names along an edge: where each wishes to stand and where it may, all at least `pitch` apart and
 * in their order, with the least sum of squares moved. */
typedef struct IfigChartSeat {
    double wish, place;
    size_t species;
} IfigChartSeat;
void ifig_chart_seat(IfigChartSeat *seats, size_t count, double pitch, double low, double high);

/* chart_strips.c: the colours from 0 to most_nm in exact device pixels. retarder: NULL: the usual
 * scale. */
void ifig_chart_strip(IfigCanvas *canvas, const IfigChartFrame *frame, const IfigRetarder *retarder,
                      double y, double height);
/* The stones' own strips; returns where they end. */
double ifig_chart_strips(IfigCanvas *canvas, const IfigChartFrame *frame, double y);

/* chart_names.c: the usual strip with orders above and the colours' names below; returns where it
 * ends. */
double ifig_chart_scale(IfigCanvas *canvas, const IfigChartFrame *frame, double y);

/* Words that grow, for an alternative text. */
typedef struct IfigChartWords {
    char text[8192];
    size_t used;
} IfigChartWords;
void ifig_chart_add(IfigChartWords *words, const char *text);

#endif
