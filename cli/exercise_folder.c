/* SPDX-License-Identifier: MIT */
#include "exercise_folder.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "output.h"

const char *const ifig_cli_exercise_files[4] = {"exercise.pdf", "answers.pdf", "exercise.csv",
                                                "exercise.json"};

static IfigCliStatus no_memory(void)
{
    return ifig_cli_complain(IFIG_CLI_NO_MEMORY, "no memory for a folder of an exercise");
}

/* A file that an exercise writes: one of the four, or q01.png to q100.png. */
static int is_of_exercise(const char *name)
{
    for (int i = 0; i < 4; i++) {
        if (strcmp(name, ifig_cli_exercise_files[i]) == 0) {
            return 1;
        }
    }
    const size_t digits = name[0] == 'q' ? strspn(name + 1, "0123456789") : 0;
    return (digits == 2 || digits == 3) && strcmp(name + 1 + digits, ".png") == 0;
}

static int is_dot(const char *name)
{
    return strcmp(name, ".") == 0 || strcmp(name, "..") == 0;
}

static IfigCliStatus refuse_entry(const char *path, const char *name, int may_replace)
{
    return may_replace
               ? ifig_cli_complain(IFIG_CLI_NO_CREATE,
                                   "-o: '%s' holds '%s', which no exercise wrote; --force "
                                   "replaces only older exercises; take another folder",
                                   ifig_cli_shown(path).text, ifig_cli_shown(name).text)
               : ifig_cli_complain(IFIG_CLI_NO_CREATE,
                                   "-o: the folder '%s' is not empty; give --force to replace an "
                                   "older exercise in it, or take another folder",
                                   ifig_cli_shown(path).text);
}

static IfigCliStatus check_entries(const char *target, const char *path, int may_replace)
{
    IfigCliStatus status = IFIG_CLI_OK;
    const struct dirent *entry;
    DIR *const folder = opendir(target);
    if (folder == NULL) {
        return ifig_cli_complain(IFIG_CLI_NO_CREATE,
                                 "-o: cannot look into '%s': %s; take another folder",
                                 ifig_cli_shown(path).text, strerror(errno));
    }
    while (status == IFIG_CLI_OK && (entry = readdir(folder)) != NULL) {
        if (!is_dot(entry->d_name) && (!may_replace || !is_of_exercise(entry->d_name))) {
            status = refuse_entry(path, entry->d_name, may_replace);
        }
    }
    closedir(folder);
    return status;
}

/* The target without slashes at its end; a link is followed. */
static char *find_target(const char *path)
{
    char *target = realpath(path, NULL);
    if (target == NULL && (target = strdup(path)) != NULL) {
        size_t length = strlen(target);
        while (length > 1 && target[length - 1] == '/') {
            target[--length] = '\0';
        }
    }
    return target;
}

/* mkdtemp keeps others out; what takes the target's place is as open as a new folder would be. */
static void open_up(const char *path, const struct stat *old)
{
    const mode_t mask = umask(0);
    umask(mask);
    chmod(path, old != NULL ? old->st_mode & 07777 : 0777 & ~mask);
}

IfigCliStatus ifig_cli_open_folder(const char *path, int may_replace, IfigCliFolder *folder)
{
    struct stat old;
    memset(folder, 0, sizeof *folder);
    folder->target = find_target(path);
    if (folder->target == NULL) {
        return no_memory();
    }
    folder->exists = stat(folder->target, &old) == 0;
    if (folder->exists && !S_ISDIR(old.st_mode)) {
        return ifig_cli_complain(IFIG_CLI_NO_CREATE,
                                 "-o: '%s' is no folder; give the name of a new one",
                                 ifig_cli_shown(path).text);
    }
    const IfigCliStatus status =
        folder->exists ? check_entries(folder->target, path, may_replace) : IFIG_CLI_OK;
    if (status != IFIG_CLI_OK) {
        return status;
    }
    if (asprintf(&folder->temporary, "%s.XXXXXX", folder->target) < 0) {
        folder->temporary = NULL;
        return no_memory();
    }
    if (mkdtemp(folder->temporary) == NULL) {
        free(folder->temporary);
        folder->temporary = NULL;
        return ifig_cli_complain(IFIG_CLI_NO_CREATE,
                                 "-o: cannot make the folder '%s': %s; take another place",
                                 ifig_cli_shown(path).text, strerror(errno));
    }
    open_up(folder->temporary, folder->exists ? &old : NULL);
    return IFIG_CLI_OK;
}

char *ifig_cli_folder_file(const IfigCliFolder *folder, const char *name)
{
    char *path = NULL;
    return asprintf(&path, "%s/%s", folder->temporary, name) < 0 ? NULL : path;
}

/* A folder with files and no folders in it. */
static void remove_folder(const char *path)
{
    const struct dirent *entry;
    DIR *const folder = opendir(path);
    while (folder != NULL && (entry = readdir(folder)) != NULL) {
        if (!is_dot(entry->d_name)) {
            unlinkat(dirfd(folder), entry->d_name, 0);
        }
    }
    if (folder != NULL) {
        closedir(folder);
    }
    rmdir(path);
}

/* rename(2) takes the place of an empty folder; a full one changes places, and then the older one
 * is removed. */
IfigCliStatus ifig_cli_commit_folder(IfigCliFolder *folder)
{
    int is_there = rename(folder->temporary, folder->target) == 0;
    const int may_swap = folder->exists && (errno == ENOTEMPTY || errno == EEXIST);
    if (!is_there && may_swap) {
        is_there =
            renameat2(AT_FDCWD, folder->temporary, AT_FDCWD, folder->target, RENAME_EXCHANGE) == 0;
        if (is_there) {
            remove_folder(folder->temporary);
        }
    }
    if (!is_there) {
        return ifig_cli_complain(IFIG_CLI_NO_CREATE,
                                 "-o: cannot bring the folder to '%s': %s; take another place",
                                 ifig_cli_shown(folder->target).text, strerror(errno));
    }
    free(folder->temporary);
    folder->temporary = NULL;
    return IFIG_CLI_OK;
}

void ifig_cli_close_folder(IfigCliFolder *folder)
{
    if (folder->temporary != NULL) {
        remove_folder(folder->temporary);
    }
    free(folder->temporary);
    free(folder->target);
    memset(folder, 0, sizeof *folder);
}
