/* SPDX-License-Identifier: MIT */
/* The chart's refusals, and the seats of its names. */
#include <math.h>

#include "chart.h"
#include "page_test.h"

START_TEST(names_keep_their_order_and_their_distance_and_move_no_more_than_they_must)
{
    IfigChartSeat seats[40];
    unsigned state = 7u + (unsigned)_i;
    const size_t count = 1 + (size_t)_i % 40;
    const double pitch = 3.5, low = 10.0, high = 210.0;
    double wish = low;
    for (size_t i = 0; i < count; i++) {
        state = state * 1664525u + 1013904223u;
        wish = fmin(wish + (state >> 28) * 0.5, high);
        seats[i] = (IfigChartSeat){.wish = wish, .species = i};
    }
    ifig_chart_seat(seats, count, pitch, low, high);
    for (size_t i = 0; i < count; i++) {
        ck_assert_double_ge(seats[i].place, low - 1e-9);
        ck_assert_double_le(seats[i].place, high + 1e-9);
        ck_assert_uint_eq(seats[i].species, i);
        if (i > 0) {
            ck_assert_double_ge(seats[i].place - seats[i - 1].place, pitch - 1e-9);
        }
        const int is_alone = (i == 0 || seats[i].place - seats[i - 1].place > pitch + 1e-6) &&
                             (i + 1 == count || seats[i + 1].place - seats[i].place > pitch + 1e-6);
        const int is_inside = seats[i].place > low + 1e-6 && seats[i].place < high - 1e-6;
        if (is_alone && is_inside) { /* nothing pushes it */
            ck_assert_double_eq_tol(seats[i].place, seats[i].wish, 1e-9);
        }
    }
}
END_TEST

START_TEST(two_names_at_one_place_part_to_both_sides_alike)
{
    IfigChartSeat seats[2] = {{.wish = 50.0}, {.wish = 50.0}};
    ifig_chart_seat(seats, 2, 4.0, 0.0, 100.0);
    ck_assert_double_eq_tol(seats[0].place, 48.0, 1e-12);
    ck_assert_double_eq_tol(seats[1].place, 52.0, 1e-12);
}
END_TEST

/* A chart that can be drawn, to be spoilt. */
typedef struct Bench {
    IfigLamp *lamp;
    IfigSpecies *stone, *glass;
    const IfigSpecies *species[1];
    IfigRetarder strips[5];
    IfigPageChart chart;
} Bench;

static void set_bench(Bench *bench)
{
    const double stone[] = {1.5, 1.51}, glass = 1.5;
    ck_assert_int_eq(ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &bench->lamp, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_species_from_indices(stone, 2, 0, &bench->stone, NULL), IFIG_OK);
    ck_assert_int_eq(ifig_species_from_indices(&glass, 1, 0, &bench->glass, NULL), IFIG_OK);
    bench->species[0] = bench->stone;
    for (int i = 0; i < 5; i++) {
        bench->strips[i] = (IfigRetarder){bench->stone, IFIG_VIEW_X};
    }
    bench->chart = (IfigPageChart)IFIG_PAGE_CHART_INIT;
    bench->chart.lamp = bench->lamp;
    bench->chart.species = bench->species;
    bench->chart.species_count = 1;
    bench->chart.strips = bench->strips;
    bench->chart.strip_count = 1;
}

static void clear_bench(Bench *bench)
{
    ifig_species_free(bench->stone);
    ifig_species_free(bench->glass);
    ifig_lamp_free(bench->lamp);
}

/* What is wrong, by number; the status it deserves and a word of its message. */
static void spoil(Bench *bench, int how)
{
    IfigPageChart *const chart = &bench->chart;
    switch (how) {
    case 0:
        chart->size = 3;
        break;
    case 1:
        chart->lamp = NULL;
        break;
    case 2:
        chart->species = NULL;
        break;
    case 3:
        chart->strips = NULL;
        break;
    case 4:
        chart->polars = IFIG_POLARS_CROSSED_CIRCULAR;
        break;
    case 5:
        chart->orders = 0;
        break;
    case 6:
        chart->orders = 9;
        break;
    case 7:
        chart->thickness_mm = NAN;
        break;
    case 8:
        chart->thickness_mm = 21;
        break;
    case 9:
        chart->species_count = 257;
        break;
    case 10:
        chart->strip_count = 5;
        break;
    case 11:
        bench->species[0] = bench->glass;
        break;
    case 12:
        bench->species[0] = NULL;
        break;
    case 13:
        bench->strips[0].section = IFIG_VIEW_Z;
        break;
    default:
        bench->strips[0].section = IFIG_VIEW_OPTIC_NORMAL;
        break;
    }
}

START_TEST(a_chart_that_cannot_be_drawn_is_refused)
{
    static const struct {
        IfigStatus status;
        const char *word;
    } answers[] = {{IFIG_ERROR_ARGUMENT, "another version"},
                   {IFIG_ERROR_ARGUMENT, "null pointer"},
                   {IFIG_ERROR_ARGUMENT, "null pointer"},
                   {IFIG_ERROR_ARGUMENT, "null pointer"},
                   {IFIG_ERROR_ARGUMENT, "crossed or parallel"},
                   {IFIG_ERROR_RANGE, "number of orders"},
                   {IFIG_ERROR_RANGE, "number of orders"},
                   {IFIG_ERROR_RANGE, "thickness"},
                   {IFIG_ERROR_RANGE, "thickness"},
                   {IFIG_ERROR_RANGE, "number of species"},
                   {IFIG_ERROR_RANGE, "number of strips"},
                   {IFIG_ERROR_UNSUITABLE, "no birefringence"},
                   {IFIG_ERROR_ARGUMENT, "needs a species"},
                   {IFIG_ERROR_UNSUITABLE, "in this section"},
                   {IFIG_ERROR_ARGUMENT, "X, Y or Z"}};
    Bench bench;
    IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    IfigPageWords words = IFIG_PAGE_WORDS_INIT;
    IfigError error = IFIG_ERROR_INIT;
    words.title = "chart";
    set_bench(&bench);
    spoil(&bench, _i);
    const IfigStatus status =
        ifig_page_chart("never_written.pdf", &options, &bench.chart, &words, &error);
    ck_assert_msg(status == answers[_i].status && strstr(error.message, answers[_i].word) != NULL,
                  "%d: %s", (int)status, error.message);
    clear_bench(&bench);
}
END_TEST

START_TEST(words_that_reach_beyond_the_sheet_are_refused)
{
    static char caption[4000];
    Bench bench;
    IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    IfigPageWords words = IFIG_PAGE_WORDS_INIT;
    IfigError error = IFIG_ERROR_INIT;
    for (size_t i = 0; i + 1 < sizeof caption; i++) {
        caption[i] = i % 5 == 4 ? ' ' : 'a';
    }
    words.title = "chart";
    words.caption = caption;
    set_bench(&bench);
    ck_assert_int_eq(ifig_page_chart("never_written.pdf", &options, &bench.chart, &words, &error),
                     IFIG_ERROR_UNSUITABLE);
    ck_assert_ptr_nonnull(strstr(error.message, "make caption and caution shorter"));
    clear_bench(&bench);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("chart");
    tcase_add_loop_test(
        facts, names_keep_their_order_and_their_distance_and_move_no_more_than_they_must, 0, 80);
    tcase_add_test(facts, two_names_at_one_place_part_to_both_sides_alike);
    tcase_add_loop_test(facts, a_chart_that_cannot_be_drawn_is_refused, 0, 15);
    tcase_add_test(facts, words_that_reach_beyond_the_sheet_are_refused);
    return run_case(facts, "chart");
}
