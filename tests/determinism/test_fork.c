/* SPDX-License-Identifier: MIT */
/* A program that has rendered may fork, and its children render: no thread of the library outlives
 * a call, so no lock is left taken (bar R18). */
#include "../run_case.h"
#include "recipes.h"

#include <signal.h>
#include <stdio.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { CHILDREN = 8, ROUNDS = 20, PICTURES = 5, HANG_S = 5 };

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static void draw_all(const IfigCatalogue *catalogue, Recipe recipes[PICTURES])
{
    for (unsigned i = 0; i < PICTURES; i++) {
        recipe_draw(catalogue, 18, i, &recipes[i]);
        recipe_quicken(&recipes[i]);
    }
}

/* In a child: no check, which would run the test's own ending; a hang ends by the alarm. */
static void render_and_leave(const Recipe *recipes, const uint64_t *wanted, int rounds)
{
    signal(SIGALRM, SIG_DFL); /* check has a handler of its own */
    alarm(HANG_S * 6);        /* a busy machine's leave */
    for (int i = 0; i < rounds; i++) {
        if (recipe_hash(&recipes[i % PICTURES], 2) != wanted[i % PICTURES]) {
            _exit(1);
        }
    }
    _exit(0);
}

START_TEST(a_child_renders_what_its_parent_rendered)
{
    Recipe recipes[PICTURES];
    uint64_t wanted[PICTURES];
    IfigCatalogue *catalogue = open_catalogue();
    draw_all(catalogue, recipes);
    for (unsigned i = 0; i < PICTURES; i++) {
        wanted[i] = recipe_hash(&recipes[i], 4);
    }
    const double started = seconds();
    pid_t child[CHILDREN];
    for (int c = 0; c < CHILDREN; c++) {
        child[c] = fork();
        ck_assert_int_ge(child[c], 0);
        if (child[c] == 0) {
            render_and_leave(recipes, wanted, ROUNDS);
        }
        ck_assert(recipe_hash(&recipes[c % PICTURES], 2) == wanted[c % PICTURES]);
    }
    for (int c = 0; c < CHILDREN; c++) {
        int status = -1;
        ck_assert_int_eq(waitpid(child[c], &status, 0), child[c]);
        ck_assert_msg(WIFEXITED(status) && WEXITSTATUS(status) == 0, "child %d ended by %d", c,
                      status);
    }
    printf("%d children, %d renders each: none hung, none differ, %.1f s\n", CHILDREN, ROUNDS,
           seconds() - started);
    for (unsigned i = 0; i < PICTURES; i++) {
        recipe_free(&recipes[i]);
    }
    ifig_catalogue_free(catalogue);
}
END_TEST

/* Called by the rendering threads; the moment of the last cancel is kept. */
static int cancel_at(double share, void *context)
{
    double *const moment = context;
    if (share < 0.05) {
        return 1;
    }
    if (*moment == 0) {
        *moment = seconds();
    }
    return 0;
}

START_TEST(a_cancelled_render_comes_back_at_once)
{
    /* Bar R10: 50 ms on a machine with nothing else to do; a busy one has five seconds here. */
    IfigCatalogue *catalogue = open_catalogue();
    double slowest = 0;
    for (int t = 1; t <= 4; t *= 2) {
        Recipe recipe;
        IfigFigure *figure = NULL;
        double moment = 0;
        recipe_draw(catalogue, 18, 0, &recipe);
        recipe.options.pixels = 4096;
        recipe.options.threads = t;
        recipe.options.progress = cancel_at;
        recipe.options.progress_context = &moment;
        recipe.is_face = 0;
        recipe.layers[0] = (IfigLayer)IFIG_LAYER_INIT;
        recipe.scene.layer_count = 1;
        recipe.scene.instrument = (IfigInstrument)IFIG_INSTRUMENT_INIT;
        ck_assert_int_eq(
            ifig_catalogue_find(catalogue, "muscovite", &recipe.layers[0].species, NULL), IFIG_OK);
        ck_assert_int_eq(ifig_figure_create(&recipe.scene, &recipe.options, &figure, NULL),
                         IFIG_OK);
        unsigned char *const pixels = malloc((size_t)4096 * 1024 * 3);
        ck_assert_ptr_nonnull(pixels);
        ck_assert_int_eq(ifig_figure_render(figure, IFIG_PIXELS_SRGB8, 0, 1024, pixels, NULL),
                         IFIG_ERROR_CANCELLED);
        const double took = seconds() - moment;
        ck_assert_double_gt(moment, 0);
        slowest = took > slowest ? took : slowest;
        free(pixels);
        ifig_figure_free(figure);
        recipe_free(&recipe);
    }
    printf("a cancelled render of 4096 pixels a row came back after at most %.0f ms\n",
           1e3 * slowest);
    ck_assert_double_lt(slowest, HANG_S);
    ifig_catalogue_free(catalogue);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("fork");
    tcase_add_test(facts, a_child_renders_what_its_parent_rendered);
    tcase_add_test(facts, a_cancelled_render_comes_back_at_once);
    return run_case(facts, "fork");
}
