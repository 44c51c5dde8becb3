/* SPDX-License-Identifier: MIT */
/* What the leak checker of a sanitizer shall overlook: fontconfig keeps what it has read for the
 * next call, partly out of the checker's sight, and cannot be told to forget it while Pango's own
 * thread may still read. Seen with fontconfig 2.14.1 on 2026-11-27; nothing of ours is overlooked.
 * Included once in each test program. */
#ifndef IFIG_PAGE_TEST_LEAKS_H
#define IFIG_PAGE_TEST_LEAKS_H

const char *__lsan_default_suppressions(void);
const char *__lsan_default_suppressions(void)
{
    return "leak:libfontconfig\n";
}

const char *__lsan_default_options(void);
const char *__lsan_default_options(void)
{
    return "print_suppressions=0"; /* the tests read standard error */
}

#endif
