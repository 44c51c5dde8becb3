/* SPDX-License-Identifier: MIT */
/* Sheets drawn by several threads at once are the sheets drawn by one. */
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include "page_test.h"

enum { THREADS = 4, ROUNDS = 3 };

typedef struct Job {
    char path[256];
    IfigStatus status;
} Job;

static void *draw(void *given)
{
    Job *const job = given;
    IfigBlink blink = IFIG_BLINK_INIT;
    IfigPageWords words = IFIG_PAGE_WORDS_INIT;
    const IfigPageOptions options = IFIG_PAGE_OPTIONS_INIT;
    blink.brightness[45] = 0.5;
    words.title = "Drawn by several threads at once";
    for (int i = 0; i < ROUNDS && job->status == IFIG_OK; i++) {
        job->status = ifig_page_blink(job->path, &options, &blink, &words, NULL);
    }
    return NULL;
}

static int is_same(const char *one, const char *other)
{
    FILE *const a = fopen(one, "rb"), *const b = fopen(other, "rb");
    ck_assert(a != NULL && b != NULL);
    int from_a = 0, from_b = 0;
    while (from_a == from_b && from_a != EOF) {
        from_a = getc(a);
        from_b = getc(b);
    }
    fclose(a);
    fclose(b);
    return from_a == from_b;
}

static void assert_alike(const char *ending)
{
    char folder[64];
    Job jobs[THREADS] = {0};
    pthread_t threads[THREADS];
    snprintf(folder, sizeof folder, "%s/page-test-XXXXXX", P_tmpdir);
    ck_assert_ptr_nonnull(mkdtemp(folder));
    for (int i = 0; i < THREADS; i++) {
        snprintf(jobs[i].path, sizeof jobs[i].path, "%s/%d.%s", folder, i, ending);
        ck_assert_int_eq(pthread_create(&threads[i], NULL, draw, &jobs[i]), 0);
    }
    for (int i = 0; i < THREADS; i++) {
        pthread_join(threads[i], NULL);
        ck_assert_int_eq(jobs[i].status, IFIG_OK);
        ck_assert_msg(is_same(jobs[0].path, jobs[i].path), "%s differs", jobs[i].path);
    }
    for (int i = 0; i < THREADS; i++) {
        unlink(jobs[i].path);
    }
    rmdir(folder);
}

START_TEST(threads_draw_the_same_pdf)
{
    assert_alike("pdf");
}
END_TEST

START_TEST(threads_draw_the_same_svg)
{
    assert_alike("svg");
}
END_TEST

START_TEST(threads_draw_the_same_png)
{
    assert_alike("png");
}
END_TEST

int main(void)
{
    TCase *const facts = tcase_create("threads");
    tcase_add_test(facts, threads_draw_the_same_pdf);
    tcase_add_test(facts, threads_draw_the_same_svg);
    tcase_add_test(facts, threads_draw_the_same_png);
    return run_case(facts, "page threads");
}
