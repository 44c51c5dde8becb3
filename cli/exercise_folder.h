/* SPDX-License-Identifier: MIT */
/* A folder that appears whole or not at all. */
#ifndef IFIG_CLI_EXERCISE_FOLDER_H
#define IFIG_CLI_EXERCISE_FOLDER_H

#include "exit_status.h"

typedef struct IfigCliFolder {
    char *target;    /* where it will stand */
    char *temporary; /* where it is filled; NULL: nothing begun */
    int exists;      /* 1: the target is a folder already */
} IfigCliFolder;

/* The four files besides the figures. */
extern const char *const ifig_cli_exercise_files[4];

/* Begin a folder beside its place. What is wrong has been complained about: a target that is no
 * folder, that holds anything unless may_replace, or then anything that no exercise wrote. Close it
 * in every case. */
IfigCliStatus ifig_cli_open_folder(const char *path, int may_replace, IfigCliFolder *folder);
/* "TEMPORARY/name", to be freed; NULL where memory ran out. */
char *ifig_cli_folder_file(const IfigCliFolder *folder, const char *name);
/* Bring it to its place. */
IfigCliStatus ifig_cli_commit_folder(IfigCliFolder *folder);
/* Remove what was begun and not committed. */
void ifig_cli_close_folder(IfigCliFolder *folder);

#endif
