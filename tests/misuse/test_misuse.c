/* SPDX-License-Identifier: MIT */
/* Every public function, called wrongly in every way that generate.py can think of. The calls of
 * one function run together in a process of their own, at whose end a sanitizer looks for leaks.
 * Where that does not end well each of them is made again alone, and the one that did it is told by
 * name. */
#include "misuse.h"
#include "specimens.h"

#include <fcntl.h>
#include <pthread.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include "../page/leaks.h"
#include "../run_case.h"

enum { THREADS = 8 };

/* Memory that we share with our children: what a child complains of, and what each call said. */
typedef struct Shared {
    char complaint[1024];
    IfigError answers[];
} Shared;

static Shared *shared;

/* Calls that run in one process, and where their answers go. */
typedef struct Batch {
    const Misuse *calls;
    IfigError *answers;
    size_t count;
} Batch;

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

static int complain(const char *form, ...) __attribute__((format(printf, 1, 2)));
static int complain(const char *form, ...)
{
    va_list values;
    va_start(values, form);
    vsnprintf(shared->complaint, sizeof shared->complaint, form, values);
    va_end(values);
    return 0;
}

/* 1 where the answer is as it should be; complains otherwise. A call that is done is not made again
 * without an error object: the crowd does that. */
static int call_wrongly(const Misuse *misuse, IfigError *answer)
{
    IfigError error = IFIG_ERROR_INIT;
    const int status = misuse->call(&error);
    close_writer();
    *answer = error;
    if (status < 0) {
        return 1;
    }
    if ((misuse->expected & 1u << status) == 0) {
        return complain("status %d, \"%s\"", status, error.message);
    }
    if (status == IFIG_OK) {
        return error.message[0] == '\0' || complain("done, but with a message");
    }
    if ((int)error.status != status || !is_a_sentence(error.message)) {
        return complain("status %d, but the error object says %d, \"%s\"", status, error.status,
                        error.message);
    }
    const int again = misuse->call(NULL);
    close_writer();
    return again == status || complain("status %d, but %d without an error object", status, again);
}

/* How a process of its own ends that makes the calls: 0 where all is well. */
static int end_of_calls(Batch batch)
{
    shared->complaint[0] = '\0';
    fflush(NULL);
    const pid_t child = fork();
    ck_assert_int_ge(child, 0);
    if (child == 0) {
        for (size_t i = 0; i < batch.count; i++) {
            if (!call_wrongly(&batch.calls[i], &batch.answers[i])) {
                _exit(EXIT_FAILURE);
            }
        }
        exit(EXIT_SUCCESS); /* not _exit: leaks are looked for on the way */
    }
    int end = 0;
    ck_assert_int_eq(waitpid(child, &end, 0), child);
    return end;
}

static void tell(const Misuse *misuse, int end)
{
    fprintf(stderr, "%s, %s: %s; the process ended by %s %d\n", misuse->function, misuse->what,
            shared->complaint[0] != '\0' ? shared->complaint : "no complaint",
            WIFSIGNALED(end) ? "signal" : "status",
            WIFSIGNALED(end) ? WTERMSIG(end) : WEXITSTATUS(end));
}

/* How many of the calls fail; the last of these is put out. Calls that fail together and not alone
 * are one failure, the last one's. */
static size_t count_failures(Batch batch, const Misuse **failing)
{
    const int end = end_of_calls(batch);
    size_t failures = 0;
    for (size_t i = 0; end != 0 && i < batch.count; i++) {
        const int alone = end_of_calls((Batch){&batch.calls[i], &batch.answers[i], 1});
        if (alone != 0) {
            tell(&batch.calls[i], alone);
            *failing = &batch.calls[i];
            failures++;
        }
    }
    if (end != 0 && failures == 0) {
        *failing = &batch.calls[batch.count - 1];
        tell(*failing, end);
        fprintf(stderr, "that is, only together with the calls before it\n");
        failures = 1;
    }
    return failures;
}

/* The calls from here on that misuse the same function. */
static size_t count_of_function(size_t first)
{
    size_t behind = first + 1;
    while (behind < misuse_count &&
           strcmp(misuses[behind].function, misuses[first].function) == 0) {
        behind++;
    }
    return behind - first;
}

START_TEST(a_wrong_call_is_refused_with_a_sentence)
{
    const Misuse *failing = NULL;
    size_t failures = 0, functions = 0;
    for (size_t first = 0, count; first < misuse_count; first += count) {
        count = count_of_function(first);
        failures +=
            count_failures((Batch){&misuses[first], &shared->answers[first], count}, &failing);
        functions++;
    }
    printf("%zu wrong calls of %zu functions, %zu failed\n", misuse_count, functions, failures);
    ck_assert_msg(failures == 0, "%zu calls failed, the last of them %s, %s", failures,
                  failing != NULL ? failing->function : "", failing != NULL ? failing->what : "");
}
END_TEST

static int refuses(IfigError *error)
{
    return (int)ifig_catalogue_create(NULL, error);
}

static int crashes(IfigError *error)
{
    (void)error;
    return raise(SIGSEGV);
}

static int says_done(IfigError *error)
{
    (void)error;
    return IFIG_OK;
}

static int leaks(IfigError *error)
{
    static void *volatile held;
    for (int i = 0; i < 10; i++) { /* a forgotten register may still hold one of them */
        held = malloc(16);
    }
    held = NULL;
    return held == NULL ? refuses(error) : IFIG_OK;
}

/* Only with a leak checker linked in. */
void __lsan_do_leak_check(void) __attribute__((weak));

/* The one planted call among others that are sound is found, and no other. Its own words are not
 * for the log, where they would seem a finding. */
static void check_planted(const char *what, int (*call)(IfigError *))
{
    const Misuse sound = {"sound", "", refuses, ANY_FAILURE};
    const Misuse calls[3] = {sound, {"planted", what, call, ANY_FAILURE}, sound};
    IfigError answers[3];
    const Misuse *failing = NULL;
    const int kept = dup(STDERR_FILENO), nowhere = open("/dev/null", O_WRONLY);
    ck_assert(kept >= 0 && nowhere >= 0 && dup2(nowhere, STDERR_FILENO) >= 0);
    const size_t failures = count_failures((Batch){calls, answers, 3}, &failing);
    ck_assert_int_ge(dup2(kept, STDERR_FILENO), 0);
    close(kept);
    close(nowhere);
    ck_assert_msg(failures == 1 && failing == &calls[1], "%s: %zu found", what, failures);
}

START_TEST(a_planted_fault_is_told_by_its_call)
{
    check_planted("a crash", crashes);
    check_planted("done for a misuse", says_done);
    if (__lsan_do_leak_check != NULL) {
        check_planted("a leak", leaks);
    }
}
END_TEST

typedef struct Crowd {
    size_t number;       /* each thread starts elsewhere */
    const Misuse *mixed; /* the last call that said something else than alone */
    IfigError said;      /* and what */
} Crowd;

/* Whether a call says in the crowd what it said alone. One that was done has no sentence: it is
 * made without an error object. */
static int says_the_same(size_t at, IfigError *said)
{
    const IfigError *alone = &shared->answers[at];
    if (alone->status == IFIG_OK) {
        return misuses[at].call(NULL) <= 0;
    }
    misuses[at].call(said);
    return said->status == alone->status && strcmp(said->message, alone->message) == 0;
}

/* Every thread makes the calls that are refused. Those that are done take most of the time and are
 * shared out. */
static void *call_all(void *argument)
{
    Crowd *crowd = argument;
    for (size_t i = 0; i < misuse_count; i++) {
        const size_t at = (crowd->number * misuse_count / THREADS + i) % misuse_count;
        IfigError said = IFIG_ERROR_INIT;
        if (shared->answers[at].status == IFIG_OK && at % THREADS != crowd->number) {
            continue;
        }
        if (!says_the_same(at, &said)) {
            crowd->mixed = &misuses[at];
            crowd->said = said;
        }
        close_writer();
    }
    return NULL;
}

START_TEST(eight_threads_get_each_its_own_sentence)
{
    pthread_t thread[THREADS];
    Crowd crowd[THREADS];
    for (size_t i = 0; i < THREADS; i++) {
        crowd[i] = (Crowd){.number = i};
        ck_assert_int_eq(pthread_create(&thread[i], NULL, call_all, &crowd[i]), 0);
    }
    for (size_t i = 0; i < THREADS; i++) {
        ck_assert_int_eq(pthread_join(thread[i], NULL), 0);
        const Misuse *mixed = crowd[i].mixed;
        ck_assert_msg(mixed == NULL, "%s, %s: in a crowd it says \"%s\"",
                      mixed != NULL ? mixed->function : "", mixed != NULL ? mixed->what : "",
                      crowd[i].said.message);
    }
}
END_TEST

static size_t shared_bytes(void)
{
    return sizeof *shared + misuse_count * sizeof shared->answers[0];
}

static void make_specimens(void)
{
    shared = mmap(NULL, shared_bytes(), PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    ck_assert(shared != MAP_FAILED && specimens_make());
}

static void free_specimens(void)
{
    specimens_free();
    munmap(shared, shared_bytes());
}

int main(void)
{
    TCase *facts = tcase_create("misuse");
    tcase_add_unchecked_fixture(facts, make_specimens, free_specimens);
    tcase_add_test(facts, a_planted_fault_is_told_by_its_call);
    tcase_add_test(facts, a_wrong_call_is_refused_with_a_sentence);
    tcase_add_test(facts, eight_threads_get_each_its_own_sentence);
    return run_case(facts, "misuse");
}
