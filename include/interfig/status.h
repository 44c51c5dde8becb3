/* SPDX-License-Identifier: MIT */
/** @file
 * How a call tells its caller that it could not do what was asked.
 *
 * Every call that can fail returns an IfigStatus and, where the caller gave an IfigError, writes
 * into it one sentence that names the culprit, the allowed range and the remedy. Nothing is global:
 * the error object is the caller's own, one for each thread.
 */
#ifndef INTERFIG_STATUS_H
#define INTERFIG_STATUS_H

#include <stddef.h>

#include "interfig/export.h"

IFIG_C_BEGIN

/** What became of a call. */
typedef enum IfigStatus {
    IFIG_OK = 0,           /**< done; the result was written */
    IFIG_ERROR_ARGUMENT,   /**< a null pointer, an unknown enum value, a foreign struct size */
    IFIG_ERROR_RANGE,      /**< a number that is not finite or outside its allowed range */
    IFIG_ERROR_NOT_FOUND,  /**< no such species, or no such file */
    IFIG_ERROR_AMBIGUOUS,  /**< a word that fits several species */
    IFIG_ERROR_UNSUITABLE, /**< a stone that cannot show what was asked (an acute bisectrix of
                              quartz) */
    IFIG_ERROR_SYNTAX,     /**< a file whose contents do not parse or make no sense */
    IFIG_ERROR_MEMORY,     /**< no memory; nothing was changed */
    IFIG_ERROR_CREATE,     /**< an output file that cannot be created */
    IFIG_ERROR_IO,         /**< reading or writing failed half-way; no output file was left */
    IFIG_ERROR_CANCELLED,  /**< the caller's progress call asked to stop */
    IFIG_ERROR_MISSING /**< what must be installed is not: a font; the message names its package */
} IfigStatus;

/** The caller's error object. Initialise with IFIG_ERROR_INIT; a call that succeeds leaves it
 * alone. */
typedef struct IfigError {
    IfigStatus status; /**< of the last call that failed; IFIG_OK before one has */
    char message[768]; /**< one line of UTF-8, ends with a NUL, no line feed */
} IfigError;

/** No error yet. */
#define IFIG_ERROR_INIT                                                                            \
    {                                                                                              \
        IFIG_OK, ""                                                                                \
    }

/** The program's and libraries' version, "MAJOR.MINOR.PATCH". Static storage. */
IFIG_API const char *ifig_version(void);

IFIG_C_END

#endif
