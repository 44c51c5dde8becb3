/* SPDX-License-Identifier: MIT */
/* Thickness against retardation: a fan of lines, one for each birefringence, and the species where
 * theirs leave the chart. */
#include "chart.h"
#include "plate.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double DOT_MM = 0.75;
static const double NAME_TURN_DEG = 60.0, NAME_PITCH_TOP = 3.5, NAME_PITCH_RIGHT = 3.1;
/* A name further from its dot would be taken for a neighbour's. */
static const double MOVED_MOST = 11.0;
static const double LEADER_TOP = 4.5, LEADER_RIGHT = 6.0;

enum { LINES_MAX = 64, NAME_MAX = 64 };

typedef enum Edge { EDGE_TOP = 0, EDGE_RIGHT } Edge;

/* Where a line from the corner leaves the chart. */
typedef struct Exit {
    Edge edge;
    IfigPoint at;
} Exit;

typedef struct Fan {
    IfigCanvas *canvas;
    const IfigChartFrame *frame;
    IfigBox box;
    double room;
    IfigChartSeat seats[2][IFIG_CHART_SPECIES_MAX];
    size_t count[2];
} Fan;

static Exit exit_of(const Fan *fan, double birefringence)
{
    const double nm = birefringence * fan->frame->chart->thickness_mm * 1e6;
    const IfigBox box = fan->box;
    if (nm <= fan->frame->most_nm) {
        return (Exit){EDGE_TOP, {ifig_chart_x(fan->frame, nm), box.y}};
    }
    return (Exit){EDGE_RIGHT,
                  {box.x + box.width, box.y + box.height * (1.0 - fan->frame->most_nm / nm)}};
}

static double birefringence_of(const IfigSpecies *species)
{
    const IfigRetarder whole = {species, IFIG_VIEW_DEFAULT};
    const double sodium_nm = 589.3;
    double birefringence = 0.0;
    ifig_retarder_birefringence(&whole, sodium_nm, &birefringence, NULL);
    return fabs(birefringence);
}

/* The name without what stands in brackets. "Titanite (sphene)", whose key is sphene, and names
 * that are long go by their key, with blanks: a word one can type. */
static void name_of(const IfigSpecies *species, char name[NAME_MAX])
{
    const size_t longest = 16;
    const char *const full = ifig_species_text(species, IFIG_TEXT_NAME);
    const char *const key = ifig_species_text(species, IFIG_TEXT_KEY);
    size_t length = strcspn(full, "(");
    while (length > 0 && full[length - 1] == ' ') {
        length--;
    }
    const int is_name = length <= longest && strstr(full + length, key) == NULL;
    const char *const from = is_name ? full : key;
    length = is_name ? length : strlen(from);
    length = length < NAME_MAX - 1 ? length : NAME_MAX - 1;
    for (size_t i = 0; i < length; i++) {
        name[i] = from[i] == '_' ? ' ' : from[i];
    }
    if (length > 0 && name[0] >= 'a' && name[0] <= 'z') {
        name[0] = (char)(name[0] - 'a' + 'A');
    }
    name[length] = '\0';
}

void ifig_chart_seat(IfigChartSeat *seats, size_t count, double pitch, double low, double high)
{
    /* Pool adjacent violators (Ayer et al., Ann. Math. Stat. 26, 641 (1955)) on wishes less the
     * pitches before them. */
    double mean[IFIG_CHART_SPECIES_MAX];
    size_t size[IFIG_CHART_SPECIES_MAX], blocks = 0, next = 0;
    for (size_t i = 0; i < count; i++) {
        mean[blocks] = seats[i].wish - pitch * (double)i;
        size[blocks++] = 1;
        while (blocks > 1 && mean[blocks - 2] > mean[blocks - 1]) {
            const double before = (double)size[blocks - 2], last = (double)size[blocks - 1];
            mean[blocks - 2] =
                (mean[blocks - 2] * before + mean[blocks - 1] * last) / (before + last);
            size[blocks - 2] += size[blocks - 1];
            blocks--;
        }
    }
    for (size_t block = 0; block < blocks; block++) {
        for (size_t i = 0; i < size[block]; i++, next++) {
            const double most = high - pitch * (double)(count - 1);
            seats[next].place = fmax(fmin(mean[block], most), low) + pitch * (double)next;
        }
    }
}

/* Bounds of the places along an edge. */
static void bounds_of(const Fan *fan, Edge edge, double *low, double *high)
{
    const IfigBox box = fan->box;
    *low = edge == EDGE_TOP ? box.x + 1.0 : box.y + 1.0;
    *high = edge == EDGE_TOP ? box.x + box.width + 4.0 : box.y + box.height - 1.8;
}

static int lay(const Fan *fan, Edge edge, IfigChartSeat *seats, size_t count)
{
    double low, high;
    bounds_of(fan, edge, &low, &high);
    ifig_chart_seat(seats, count, edge == EDGE_TOP ? NAME_PITCH_TOP : NAME_PITCH_RIGHT, low, high);
    for (size_t i = 0; i < count; i++) {
        if (fabs(seats[i].place - seats[i].wish) > MOVED_MOST || seats[i].place > high + 1e-9) {
            return 0;
        }
    }
    return 1;
}

static IfigTextStyle name_style(Edge edge)
{
    IfigTextStyle style = ifig_text_style(7.0, IFIG_INK_TEXT);
    style.level = IFIG_LEVEL_MIDDLE;
    style.turn_deg = edge == EDGE_TOP ? NAME_TURN_DEG : 0.0;
    return style;
}

static int has_room(const Fan *fan, Edge edge, const char *name)
{
    const IfigTextStyle style = name_style(edge);
    const double width = ifig_canvas_measure(fan->canvas, &style, (IfigPoint){0, 0}, name).width;
    const double right = fan->box.x + fan->box.width + LEADER_RIGHT;
    return edge == EDGE_TOP ? width * sin(NAME_TURN_DEG * IFIG_DEGREE) + LEADER_TOP <= fan->room
                            : right + width <= IFIG_CHART_WIDTH - 0.8 * IFIG_CHART_MARGIN;
}

/* Give a species a seat, if there is one. */
static int add_species(Fan *fan, size_t index)
{
    IfigChartSeat trial[IFIG_CHART_SPECIES_MAX];
    const IfigSpecies *const species = fan->frame->chart->species[index];
    const Exit leaves = exit_of(fan, birefringence_of(species));
    const size_t count = fan->count[leaves.edge];
    const double wish = leaves.edge == EDGE_TOP ? leaves.at.x : leaves.at.y;
    char name[NAME_MAX];
    size_t place = 0;
    name_of(species, name);
    if (count == IFIG_CHART_SPECIES_MAX || !has_room(fan, leaves.edge, name)) {
        return 0;
    }
    while (place < count && fan->seats[leaves.edge][place].wish <= wish) {
        place++;
    }
    memcpy(trial, fan->seats[leaves.edge], place * sizeof *trial);
    trial[place] = (IfigChartSeat){.wish = wish, .species = index};
    memcpy(trial + place + 1, fan->seats[leaves.edge] + place, (count - place) * sizeof *trial);
    if (!lay(fan, leaves.edge, trial, count + 1)) {
        return 0;
    }
    memcpy(fan->seats[leaves.edge], trial, (count + 1) * sizeof *trial);
    fan->count[leaves.edge] = count + 1;
    return 1;
}

static void seat_species(Fan *fan)
{
    const IfigPageChart *const chart = fan->frame->chart;
    for (size_t i = 0; i < chart->species_count; i++) {
        if (!add_species(fan, i) && !chart->may_leave_out &&
            ifig_canvas_status(fan->canvas) == IFIG_OK) {
            IfigError error = IFIG_ERROR_INIT;
            ifig_fail(&error, IFIG_ERROR_UNSUITABLE,
                      "the name of %s finds no room on the chart beside its neighbours; mark fewer "
                      "species, or choose another thickness or number of orders",
                      ifig_species_text(chart->species[i], IFIG_TEXT_KEY));
            ifig_canvas_fail(fan->canvas, &error);
        }
    }
}

/* The lines: round numbers, those of fewer digits first, as many as keep their numbers apart. */
static size_t choose_lines(const Fan *fan, double lines[LINES_MAX])
{
    static const double steps[] = {1.0, 2.0, 5.0, 3.0, 4.0, 1.5, 7.0, 6.0, 8.0, 2.5, 1.2};
    const double apart_top = 9.0, apart_right = 4.2, least = 1e-5, corner = 5.0;
    Exit exits[LINES_MAX];
    size_t count = 0;
    for (size_t s = 0; s < sizeof steps / sizeof *steps; s++) {
        for (double decade = least; decade < 1.0 && count < LINES_MAX; decade *= 10.0) {
            const double value = steps[s] * decade;
            const Exit leaves = exit_of(fan, value);
            const IfigBox box = fan->box;
            int is_apart =
                value < 1.0 &&
                (leaves.edge == EDGE_TOP
                     ? leaves.at.x > box.x + apart_top && leaves.at.x < box.x + box.width - corner
                     : leaves.at.y < box.y + box.height - 6.0 && leaves.at.y > box.y + corner);
            for (size_t i = 0; i < count && is_apart; i++) {
                is_apart =
                    leaves.edge != exits[i].edge ||
                    (leaves.edge == EDGE_TOP ? fabs(leaves.at.x - exits[i].at.x) >= apart_top
                                             : fabs(leaves.at.y - exits[i].at.y) >= apart_right);
            }
            if (is_apart) {
                exits[count] = leaves;
                lines[count++] = value;
            }
        }
    }
    return count;
}

/* The number stands on its line, a little inside the edge. */
static void draw_number(const Fan *fan, double value, Exit leaves)
{
    const IfigPoint corner = {fan->box.x, fan->box.y + fan->box.height};
    const double inside = leaves.edge == EDGE_TOP ? 2.6 / fan->box.height : 5.2 / fan->box.width;
    IfigTextStyle style = ifig_text_haloed(ifig_text_style(6.5, IFIG_INK_TEXT), 0.9);
    style.align = IFIG_ALIGN_CENTRE;
    style.level = IFIG_LEVEL_MIDDLE;
    ifig_canvas_text(fan->canvas, &style,
                     (IfigPoint){leaves.at.x + inside * (corner.x - leaves.at.x),
                                 leaves.at.y + inside * (corner.y - leaves.at.y)},
                     ifig_number_text(value, 3).text);
}

static void draw_lines(const Fan *fan)
{
    const IfigPen pen = ifig_pen(IFIG_INK_MUTED, 0.15, IFIG_DASH_SOLID);
    const IfigPoint corner = {fan->box.x, fan->box.y + fan->box.height};
    double lines[LINES_MAX];
    const size_t count = choose_lines(fan, lines);
    for (size_t i = 0; i < count; i++) {
        ifig_canvas_line(fan->canvas, &pen, corner, exit_of(fan, lines[i]).at);
    }
    for (size_t i = 0; i < count; i++) {
        draw_number(fan, lines[i], exit_of(fan, lines[i]));
    }
}

static void draw_orders(const Fan *fan)
{
    const IfigPen pen = ifig_pen(IFIG_INK_AXIS, 0.2, IFIG_DASH_SHORT);
    for (int order = 1; order < fan->frame->chart->orders; order++) {
        const double x = ifig_chart_x(fan->frame, order * fan->frame->order_nm);
        ifig_canvas_line(fan->canvas, &pen, (IfigPoint){x, fan->box.y},
                         (IfigPoint){x, fan->box.y + fan->box.height});
    }
}

static void draw_names(const Fan *fan, Edge edge)
{
    const IfigPen leader = ifig_pen(IFIG_INK_MUTED, 0.15, IFIG_DASH_SOLID);
    const IfigInk ink = ifig_ink(IFIG_INK_TEXT);
    const IfigTextStyle style = name_style(edge);
    for (size_t i = 0; i < fan->count[edge]; i++) {
        const IfigChartSeat *const seat = &fan->seats[edge][i];
        const IfigBox box = fan->box;
        const IfigPoint dot = edge == EDGE_TOP ? (IfigPoint){seat->wish, box.y}
                                               : (IfigPoint){box.x + box.width, seat->wish};
        const IfigPoint at = edge == EDGE_TOP
                                 ? (IfigPoint){seat->place, box.y - LEADER_TOP}
                                 : (IfigPoint){box.x + box.width + LEADER_RIGHT, seat->place};
        const double short_of = 0.5;
        char name[NAME_MAX];
        name_of(fan->frame->chart->species[seat->species], name);
        ifig_canvas_line(fan->canvas, &leader, dot,
                         (IfigPoint){at.x - (edge == EDGE_RIGHT ? short_of : 0.0),
                                     at.y + (edge == EDGE_TOP ? short_of : 0.0)});
        ifig_canvas_circle(fan->canvas, NULL, &ink, dot, DOT_MM);
        ifig_canvas_text(fan->canvas, &style, at, name);
    }
}

static void tell_marks(const Fan *fan, IfigChartWords *words)
{
    ifig_chart_add(words, ifig_page_message(IFIG_PAGE_SAY_CHART_FAN_WORDS));
    for (int edge = EDGE_TOP; edge <= EDGE_RIGHT; edge++) {
        for (size_t i = 0; i < fan->count[edge]; i++) {
            const IfigSpecies *const species =
                fan->frame->chart->species[fan->seats[edge][i].species];
            char name[NAME_MAX];
            name_of(species, name);
            ifig_chart_add(words, ifig_page_say(IFIG_PAGE_SAY_CHART_MARK, name,
                                                ifig_number_text(birefringence_of(species), 3).text)
                                      .text);
        }
    }
}

/* Beside the axes, where no name can come: thickness above its numbers, retardation behind its. */
static void draw_axis_titles(const Fan *fan)
{
    const IfigBox box = fan->box;
    IfigTextStyle style = ifig_text_style(7.5, IFIG_INK_TEXT);
    const double right = box.x + box.width, bottom = box.y + box.height;
    ifig_canvas_text(fan->canvas, &style, (IfigPoint){right + 4.5, bottom + 1.0},
                     ifig_page_message(IFIG_PAGE_SAY_CHART_RETARDATION));
    style.align = IFIG_ALIGN_RIGHT;
    style.level = IFIG_LEVEL_BOTTOM;
    ifig_canvas_text(fan->canvas, &style, (IfigPoint){box.x - 1.0, box.y - 2.0},
                     ifig_page_message(IFIG_PAGE_SAY_CHART_THICKNESS));
    style = ifig_text_haloed(ifig_text_style(7.0, IFIG_INK_MUTED), 0.5);
    style.align = IFIG_ALIGN_RIGHT;
    style.level = IFIG_LEVEL_BOTTOM;
    ifig_canvas_text(fan->canvas, &style, (IfigPoint){right - 2.0, bottom - 0.6},
                     ifig_page_message(IFIG_PAGE_SAY_CHART_BIREFRINGENCE));
}

static void draw_all(Fan *fan)
{
    const IfigPageChart *const chart = fan->frame->chart;
    const IfigPlot plot = {
        fan->box, {0.0, fan->frame->most_nm, 0.0, NULL}, {0.0, chart->thickness_mm, 0.0, NULL}, 1};
    draw_orders(fan);
    ifig_plot_axes(fan->canvas, &plot);
    draw_lines(fan);
    draw_axis_titles(fan);
    draw_names(fan, EDGE_TOP);
    draw_names(fan, EDGE_RIGHT);
}

void ifig_chart_fan(IfigCanvas *canvas, const IfigChartFrame *frame, IfigBox box, double room)
{
    Fan *const fan = calloc(1, sizeof *fan);
    IfigChartWords *const words = calloc(1, sizeof *words);
    if (fan == NULL || words == NULL) {
        IfigError error = IFIG_ERROR_INIT;
        ifig_fail(&error, IFIG_ERROR_MEMORY, "no memory for a chart; close programs");
        ifig_canvas_fail(canvas, &error);
    } else {
        fan->canvas = canvas;
        fan->frame = frame;
        fan->box = box;
        fan->room = room;
        seat_species(fan);
        tell_marks(fan, words);
        ifig_canvas_begin(canvas, IFIG_ROLE_FIGURE, words->text);
        draw_all(fan);
        ifig_canvas_end(canvas);
    }
    free(words);
    free(fan);
}
