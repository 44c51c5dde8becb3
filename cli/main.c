/* SPDX-License-Identifier: MIT */
/* interfig: the expected interference figures of gemstones, from the command line. */
#include <fcntl.h>
#include <signal.h>
#include <string.h>
#include <unistd.h>

#include "arguments.h"
#include "commands.h"
#include "print_recipe.h"

/* A program may be started with standard streams closed; the next file opened would then take
 * their place. Opened the wrong way round, they make every use fail as a closed stream does. */
static void occupy_standard_streams(void)
{
    for (int stream = STDIN_FILENO; stream <= STDERR_FILENO; stream++) {
        if (fcntl(stream, F_GETFD) == -1) {
            const int opened = open("/dev/null", stream == STDIN_FILENO ? O_WRONLY : O_RDONLY);
            (void)opened;
        }
    }
}

static IfigCliStatus run_command(const IfigCliCommand *command, int count, char **words)
{
    IfigCliSettings settings = ifig_cli_default_settings();
    const IfigCliStatus status = ifig_cli_read_arguments(command->bit, count, words, &settings);
    if (status != IFIG_CLI_OK) {
        return status;
    }
    if (settings.given[IFIG_CLI_HELP]) {
        ifig_cli_print_command_help(command);
        return IFIG_CLI_OK;
    }
    return settings.given[IFIG_CLI_PRINT_RECIPE] && command->bit != IFIG_CLI_PAGE
               ? ifig_cli_print_recipe(&settings)
               : command->run(&settings);
}

/* "interfig --help" and its like, which stand alone. */
static IfigCliStatus run_alone(const char *word, const char *next)
{
    const int is_help = strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0;
    const int is_version = strcmp(word, "--version") == 0;
    if (!is_help && !is_version) {
        return ifig_cli_complain(IFIG_CLI_USAGE,
                                 "unknown option '%s'; a command comes first: "
                                 "interfig figure quartz",
                                 ifig_cli_shown(word).text);
    }
    if (next != NULL) {
        return ifig_cli_complain(IFIG_CLI_USAGE,
                                 "'%s' after %s: %s stands alone; for the help of a "
                                 "command type: interfig help COMMAND",
                                 ifig_cli_shown(next).text, word, word);
    }
    if (is_help) {
        ifig_cli_print_help();
    } else {
        printf("interfig %s\n", ifig_version());
    }
    return IFIG_CLI_OK;
}

static IfigCliStatus run(int count, char **words)
{
    if (count < 2) {
        ifig_cli_print_newcomer_help();
        return IFIG_CLI_OK;
    }
    if (words[1][0] == '-') {
        return run_alone(words[1], words[2]);
    }
    const IfigCliCommand *command = ifig_cli_find_command(words[1]);
    return command != NULL ? run_command(command, count - 1, words + 1)
                           : ifig_cli_refuse_command(words[1]);
}

int main(int count, char **words)
{
    occupy_standard_streams();
    signal(SIGXFSZ, SIG_IGN); /* a file grown too large is then an error like a full disk */
    const IfigCliStatus status = run(count, words);
    const IfigCliStatus ending = ifig_cli_finish_output();
    return (int)(status != IFIG_CLI_OK ? status : ending);
}
