/* SPDX-License-Identifier: MIT */
/* How the program ends, after sysexits.h (4.3BSD). */
#ifndef IFIG_CLI_EXIT_STATUS_H
#define IFIG_CLI_EXIT_STATUS_H

#include <stddef.h>

#include "interfig/status.h"

typedef enum IfigCliStatus {
    IFIG_CLI_OK = 0,
    IFIG_CLI_USAGE = 64,
    IFIG_CLI_DATA = 65,
    IFIG_CLI_NO_INPUT = 66,
    IFIG_CLI_MISSING = 69,
    IFIG_CLI_DEFECT = 70,
    IFIG_CLI_NO_MEMORY = 71,
    IFIG_CLI_NO_CREATE = 73,
    IFIG_CLI_IO = 74
} IfigCliStatus;

/* What a library call was given: words of the command line, or a file that they name. */
typedef enum IfigCliSubject { IFIG_CLI_WORDS, IFIG_CLI_FILE } IfigCliSubject;

/* The one place where a library's status becomes the program's. */
IfigCliStatus ifig_cli_exit_status(IfigStatus status, IfigCliSubject subject);

/* The statuses and what they mean, for the help. */
typedef struct IfigCliMeaning {
    int status;
    const char *meaning;
} IfigCliMeaning;
const IfigCliMeaning *ifig_cli_meanings(size_t *count);

#endif
