/* SPDX-License-Identifier: MIT */
/* Trouble with files in words of our own: strerror follows the locale and never tells what helps.
 */
#include "image.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

typedef struct Trouble {
    int number;
    const char *reason;
    const char *remedy[2]; /* by IfigFileUse */
} Trouble;

#define ELSEWHERE "choose another place with -o"

static const Trouble troubles[] = {
    {ENOSPC, "no space left on the device", {"free some space", "free some space or " ELSEWHERE}},
    {EDQUOT,
     "your disk quota is used up",
     {"delete some files", "delete some files or " ELSEWHERE}},
    {EIO,
     "input/output error",
     {"check the disk or the connection to it", "check the disk, or " ELSEWHERE}},
    {EFBIG,
     "the file grew past the largest size allowed here",
     {"raise the limit (ulimit -f)",
      "raise the limit (ulimit -f), make a smaller picture, or " ELSEWHERE}},
    {EROFS, "the file system is read-only", {"mount it for writing", ELSEWHERE}},
    {EACCES,
     "no permission",
     {"ask its owner for the right to read it",
      "make the file and its folder writable, or " ELSEWHERE}},
    {EPERM, "the system does not permit it", {"ask its owner for the right to read it", ELSEWHERE}},
    {ENOENT,
     "there is no such file or folder",
     {"check the spelling and the folder you are in", "create the folder first, or " ELSEWHERE}},
    {ENOTDIR,
     "a part of the path is not a folder",
     {"check the spelling", "check the spelling, or " ELSEWHERE}},
    {EISDIR, "it is a folder", {"name a file in it", "name a file in it"}},
    {EEXIST,
     "it exists already",
     {"check the path", "choose another name with -o, or allow it to be replaced"}},
    {ENAMETOOLONG, "the name is too long", {"use a shorter path", "use a shorter path"}},
    {ELOOP, "too many symbolic links", {"name the file itself", "name the file itself"}},
    {EMFILE,
     "too many files are open",
     {"close some, or raise the limit (ulimit -n)", "close some, or raise the limit (ulimit -n)"}},
    {ENFILE,
     "too many files are open on this machine",
     {"close some programs", "close some programs"}},
    {EPIPE,
     "its reader has gone",
     {"start the reader again", "start the reader again, or write into a file with -o"}},
    {ENXIO,
     "nothing listens at the other end",
     {"start the other end first", "start the other end first, or " ELSEWHERE}},
    {EBADF, "it is closed", {"open it, or name a file", "open it, or write into a file with -o"}},
    {EBUSY, "the system is using it", {"try again later", "try again later, or " ELSEWHERE}},
    {ENOMEM, "no memory", {"close some programs", "close some programs"}},
    {ESTALE,
     "the connection to its disk was lost",
     {"connect it again", "connect it again, or " ELSEWHERE}},
};

IfigStatus ifig_fail_file(IfigError *error, IfigStatus status, IfigFileUse use, const char *path,
                          int number)
{
    const char *const act = use == IFIG_FILE_READ ? "read" : "write";
    const char *const kind = use == IFIG_FILE_READ ? "file" : "place";
    for (size_t i = 0; i < sizeof troubles / sizeof troubles[0]; i++) {
        if (troubles[i].number == number) {
            return ifig_fail(error, status, "cannot %s '%s': %s; %s", act,
                             ifig_path_text(path).text, troubles[i].reason,
                             troubles[i].remedy[use]);
        }
    }
    return ifig_fail(error, status,
                     "cannot %s '%s': system error %s (see 'man errno'); try another %s", act,
                     ifig_path_text(path).text, ifig_number_text(number, 9).text, kind);
}

int ifig_utf8_is_valid(const char *text)
{
    unsigned long code_point = 0;
    while (*text != '\0') {
        const size_t length = ifig_utf8_read(text, &code_point);
        if (length == 0) {
            return 0;
        }
        text += length;
    }
    return 1;
}

IfigPathText ifig_path_text(const char *path)
{
    IfigPathText shown;
    const size_t room = sizeof shown.text - sizeof "...";
    const size_t length = strlen(path);
    const char *tail = path;
    if (length > room) {
        tail += length - room;
        while (((unsigned char)*tail & 0xc0) == 0x80) {
            tail++; /* do not begin inside a UTF-8 character */
        }
    }
    snprintf(shown.text, sizeof shown.text, "%s%s", tail > path ? "..." : "", tail);
    return shown;
}
