#!/bin/sh
# SPDX-License-Identifier: MIT
# The optics built by clang with ThreadSanitizer, and eight threads that share one catalogue (bar R17).
# The second half shows that a race would be seen: a program with one planted. test_races.sh ROUNDS
set -eu
cd "$(dirname "$0")/../.."
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

cat >"$work/race.c" <<'END'
#include <pthread.h>
static int shared;
static void *add(void *nothing) { shared++; return nothing; }
int main(void)
{
    pthread_t thread;
    if (pthread_create(&thread, 0, add, 0) != 0) return 1;
    shared++;
    return pthread_join(thread, 0);
}
END
clang -g -fsanitize=thread -o "$work/race" "$work/race.c" -lpthread
if "$work/race" >"$work/race.log" 2>&1 || ! grep -q "data race" "$work/race.log"; then
    cat "$work/race.log"
    echo "a planted race is not seen: ThreadSanitizer does not work here"
    exit 1
fi

CC=clang meson setup "$work/build" . -Db_sanitize=thread -Db_lundef=false -Doptimization=2 \
    >"$work/log" 2>&1 || { cat "$work/log"; exit 1; }
ninja -C "$work/build" tests/determinism/stress >"$work/log" 2>&1 || {
    tail -n 20 "$work/log"
    exit 1
}
TSAN_OPTIONS=halt_on_error=0:exitcode=66 "$work/build/tests/determinism/stress" "${1:-125}"
echo "0 reports of ThreadSanitizer, 0 suppressions; the planted race was seen"
