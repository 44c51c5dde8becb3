/* SPDX-License-Identifier: MIT */
#include "exit_status.h"

IfigCliStatus ifig_cli_exit_status(IfigStatus status, IfigCliSubject subject)
{
    const int is_file = subject == IFIG_CLI_FILE;
    switch (status) {
    case IFIG_OK:
        return IFIG_CLI_OK;
    case IFIG_ERROR_RANGE:
    case IFIG_ERROR_AMBIGUOUS:
        return is_file ? IFIG_CLI_DATA : IFIG_CLI_USAGE;
    case IFIG_ERROR_NOT_FOUND:
        return is_file ? IFIG_CLI_NO_INPUT : IFIG_CLI_USAGE;
    case IFIG_ERROR_UNSUITABLE:
    case IFIG_ERROR_SYNTAX:
        return IFIG_CLI_DATA;
    case IFIG_ERROR_MEMORY:
        return IFIG_CLI_NO_MEMORY;
    case IFIG_ERROR_CREATE:
        return IFIG_CLI_NO_CREATE;
    case IFIG_ERROR_IO:
        return IFIG_CLI_IO;
    case IFIG_ERROR_MISSING:
        return IFIG_CLI_MISSING;
    case IFIG_ERROR_ARGUMENT:
    case IFIG_ERROR_CANCELLED:
        break;
    }
    return IFIG_CLI_DEFECT;
}

const IfigCliMeaning *ifig_cli_meanings(size_t *count)
{
    static const IfigCliMeaning meanings[] = {
        {0, "done"},
        {IFIG_CLI_USAGE,
         "the command line does not make sense: an unknown command, option, species "
         "or view, a number out of range, two options that contradict each other"},
        {IFIG_CLI_DATA,
         "what was given cannot serve: a stone that shows no figure (an aggregate, an "
         "opaque stone), a file that does not parse, a PNG without a recipe"},
        {IFIG_CLI_NO_INPUT, "an input file is missing"},
        {IFIG_CLI_MISSING, "what interfig needs is not installed: the font of its plates"},
        {IFIG_CLI_DEFECT, "a defect in interfig itself: please report it"},
        {IFIG_CLI_NO_MEMORY, "no memory left; choose a smaller --size or close other programs"},
        {IFIG_CLI_NO_CREATE,
         "the output file cannot be created: it exists already, its folder does "
         "not, or it may not be written"},
        {IFIG_CLI_IO,
         "reading or writing failed, as on a full disk; an older file of that name was "
         "left as it was"},
        {130, "stopped by SIGINT (Ctrl-C); nothing half-written is left behind"},
        {141, "the reader of a pipe went away (SIGPIPE)"},
        {143, "stopped by SIGTERM; nothing half-written is left behind"},
    };
    *count = sizeof meanings / sizeof meanings[0];
    return meanings;
}
