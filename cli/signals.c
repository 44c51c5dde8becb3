/* SPDX-License-Identifier: MIT */
#include "signals.h"

#include <pthread.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static const int endings[] = {SIGINT, SIGTERM, SIGHUP};

enum { ENDING_COUNT = sizeof endings / sizeof endings[0], LONGEST_PATH = 8192 };

/* The one thing a handler can be told. Written while the signals are held back. */
static char guarded[LONGEST_PATH];

static sigset_t ending_set(void)
{
    sigset_t set;
    sigemptyset(&set);
    for (int i = 0; i < ENDING_COUNT; i++) {
        sigaddset(&set, endings[i]);
    }
    return set;
}

/* SA_RESETHAND has brought back the signal's own way: raised anew, it ends the program by itself,
 * so that the shell learns what happened. Only async-signal-safe calls (POSIX.1-2017, 2.4.3). */
static void remove_and_end(int number)
{
    if (guarded[0] != '\0') {
        unlink(guarded);
    }
    raise(number);
}

void ifig_cli_hold_signals(void)
{
    const sigset_t set = ending_set();
    pthread_sigmask(SIG_BLOCK, &set, NULL);
}

void ifig_cli_release_signals(void)
{
    const sigset_t set = ending_set();
    pthread_sigmask(SIG_UNBLOCK, &set, NULL);
}

int ifig_cli_is_ending(void)
{
    sigset_t waiting;
    int is_ending = 0;
    sigpending(&waiting);
    for (int i = 0; i < ENDING_COUNT; i++) {
        is_ending |= sigismember(&waiting, endings[i]) == 1;
    }
    return is_ending;
}

void ifig_cli_guard_file(const char *path)
{
    guarded[0] = '\0';
    if (path == NULL || strlen(path) >= sizeof guarded) {
        return;
    }
    memcpy(guarded, path, strlen(path) + 1);
    for (int i = 0; i < ENDING_COUNT; i++) {
        struct sigaction action, old;
        memset(&action, 0, sizeof action);
        action.sa_handler = remove_and_end;
        action.sa_flags = (int)SA_RESETHAND;
        action.sa_mask = ending_set();
        /* nohup and shells in the background ignore signals on purpose. */
        if (sigaction(endings[i], NULL, &old) == 0 && old.sa_handler != SIG_IGN) {
            sigaction(endings[i], &action, NULL);
        }
    }
}
