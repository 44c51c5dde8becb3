/* SPDX-License-Identifier: MIT */
/* Every public function, called wrongly in every way that generate.py can think of. Each call runs
 * in a process of its own, so that a crash is told by the function's name. */
#include "misuse.h"
#include "specimens.h"

#include <pthread.h>
#include <stdio.h>
#include <string.h>

#include "../page/leaks.h"
#include "../run_case.h"

enum { THREADS = 8 };

/* One line that can stand in a log: no control characters, and not empty. */
static int is_a_sentence(const char *message)
{
    size_t length = strlen(message);
    for (size_t i = 0; i < length; i++) {
        if ((unsigned char)message[i] < 0x20 || message[i] == 0x7f) {
            return 0;
        }
    }
    return length >= 10 && length < sizeof((IfigError *)0)->message;
}

static void call_wrongly(const Misuse *misuse)
{
    IfigError error = IFIG_ERROR_INIT;
    int status = misuse->call(&error);
    close_writer();
    if (status < 0) {
        return;
    }
    ck_assert_msg(misuse->expected & 1u << status, "%s, %s: status %d, \"%s\"", misuse->function,
                  misuse->what, status, error.message);
    ck_assert_msg(misuse->call(NULL) == status, "%s, %s: another status without an error object",
                  misuse->function, misuse->what);
    close_writer();
    if (status != IFIG_OK) {
        ck_assert_msg((int)error.status == status && is_a_sentence(error.message),
                      "%s, %s: status %d, but the error object says %d, \"%s\"", misuse->function,
                      misuse->what, status, error.status, error.message);
    } else {
        ck_assert_msg(error.message[0] == '\0', "%s, %s: done, but with a message",
                      misuse->function, misuse->what);
    }
}

START_TEST(a_wrong_call_is_refused_with_a_sentence)
{
    call_wrongly(&misuses[_i]);
}
END_TEST

typedef struct Crowd {
    IfigError *alone;    /* what each call said when nobody else was calling */
    size_t first;        /* each thread starts elsewhere */
    const Misuse *mixed; /* the last call that said something else */
    IfigError said;      /* and what */
} Crowd;

static void *call_all(void *argument)
{
    Crowd *crowd = argument;
    for (size_t i = 0; i < misuse_count; i++) {
        size_t at = (crowd->first + i) % misuse_count;
        IfigError error = IFIG_ERROR_INIT;
        misuses[at].call(&error);
        close_writer();
        if (error.status != crowd->alone[at].status ||
            strcmp(error.message, crowd->alone[at].message) != 0) {
            crowd->mixed = &misuses[at];
            crowd->said = error;
        }
    }
    return NULL;
}

START_TEST(eight_threads_get_each_its_own_sentence)
{
    IfigError *alone = calloc(misuse_count, sizeof *alone);
    ck_assert_ptr_nonnull(alone);
    for (size_t i = 0; i < misuse_count; i++) {
        misuses[i].call(&alone[i]);
        close_writer();
    }
    pthread_t thread[THREADS];
    Crowd crowd[THREADS];
    for (size_t i = 0; i < THREADS; i++) {
        crowd[i] = (Crowd){.alone = alone, .first = i * misuse_count / THREADS};
        ck_assert_int_eq(pthread_create(&thread[i], NULL, call_all, &crowd[i]), 0);
    }
    for (size_t i = 0; i < THREADS; i++) {
        ck_assert_int_eq(pthread_join(thread[i], NULL), 0);
        const Misuse *mixed = crowd[i].mixed;
        ck_assert_msg(mixed == NULL, "%s, %s: in a crowd it says \"%s\"",
                      mixed != NULL ? mixed->function : "", mixed != NULL ? mixed->what : "",
                      crowd[i].said.message);
    }
    free(alone);
}
END_TEST

static void make_specimens(void)
{
    ck_assert(specimens_make());
}

/* With a number as its argument the program says which call that is, for a crash is told by it. */
int main(int count, char **words)
{
    if (count == 2) {
        const size_t at = strtoul(words[1], NULL, 10) % misuse_count;
        printf("%s: %s\n", misuses[at].function, misuses[at].what);
        return EXIT_SUCCESS;
    }
    TCase *facts = tcase_create("misuse");
    tcase_add_unchecked_fixture(facts, make_specimens, specimens_free);
    tcase_add_loop_test(facts, a_wrong_call_is_refused_with_a_sentence, 0, (int)misuse_count);
    tcase_add_test(facts, eight_threads_get_each_its_own_sentence);
    return run_case(facts, "misuse");
}
