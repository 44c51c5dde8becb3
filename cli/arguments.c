/* SPDX-License-Identifier: MIT */
#include "arguments.h"

#include <getopt.h>
#include <stdarg.h>
#include <string.h>

#include "commands.h"

/* getopt_long answers a word that is no option with 1, a long option with this and its place. */
enum { A_WORD = 1, LONG_OPTION = 1000 };

IfigCliLabel ifig_cli_label(const IfigCliOption *option)
{
    IfigCliLabel label;
    if (option->letter == 'o') {
        snprintf(label.text, sizeof label.text, "-%c", option->letter);
    } else {
        snprintf(label.text, sizeof label.text, "--%s", option->name);
    }
    return label;
}

IfigCliStatus ifig_cli_refuse(const IfigCliSettings *settings, const char *format, ...)
{
    char text[1000];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    if (settings->place != NULL) {
        return ifig_cli_complain(IFIG_CLI_DATA, "%s: %s", settings->place, text);
    }
    if (settings->origin != NULL) {
        return ifig_cli_complain(IFIG_CLI_DATA, "the recipe in '%s': %s",
                                 ifig_cli_shown(settings->origin).text, text);
    }
    return ifig_cli_complain(IFIG_CLI_USAGE, "%s", text);
}

/* Options that the command takes, for getopt_long; every one is there, so that one of another
 * command can be told from one that nobody knows. */
static void fill_long_options(struct option *long_options)
{
    for (int id = 0; id < IFIG_CLI_OPTION_COUNT; id++) {
        const IfigCliOption *option = ifig_cli_option(id);
        long_options[id] = (struct option){
            option->name, option->argument != NULL ? required_argument : no_argument, NULL,
            LONG_OPTION + id};
    }
    long_options[IFIG_CLI_OPTION_COUNT] = (struct option){NULL, 0, NULL, 0};
}

static IfigCliStatus refuse_unknown(int command, const char *word, const IfigCliSettings *settings)
{
    const char *names[IFIG_CLI_OPTION_COUNT];
    size_t count = 0;
    char name[64];
    const char *start = word + strspn(word, "-");
    const size_t length = strcspn(start, "=");
    snprintf(name, sizeof name, "%.*s", (int)(length < sizeof name ? length : sizeof name), start);
    for (int id = 0; id < IFIG_CLI_OPTION_COUNT; id++) {
        if ((ifig_cli_option(id)->commands & command) != 0) {
            names[count++] = ifig_cli_option(id)->name;
        }
    }
    const char *nearest = ifig_nearest_word(name, names, count);
    for (size_t i = 0; i < count && nearest == NULL && length > 1; i++) {
        nearest = strncmp(names[i], name, strlen(name)) == 0 ? names[i] : NULL;
    }
    const char *called = ifig_cli_command_name(command);
    if (nearest != NULL) {
        return ifig_cli_refuse(settings,
                               "unknown option '%s'; did you mean --%s? "
                               "'interfig %s --help' lists them all",
                               ifig_cli_shown(word).text, nearest, called);
    }
    return ifig_cli_refuse(settings, "unknown option '%s'; 'interfig %s --help' lists them all",
                           ifig_cli_shown(word).text, called);
}

static IfigCliStatus refuse_foreign(int command, const IfigCliOption *option,
                                    const IfigCliSettings *settings)
{
    char owners[200] = "";
    int left = 0;
    unsigned commands = 0; /* of every option of that name */
    for (int id = 0; id < IFIG_CLI_OPTION_COUNT; id++) {
        const IfigCliOption *other = ifig_cli_option(id);
        commands |= strcmp(other->name, option->name) == 0 ? other->commands : 0U;
    }
    for (int i = 0; ifig_cli_command(i) != NULL; i++) {
        left += (commands & (unsigned)ifig_cli_command(i)->bit) != 0;
    }
    for (int i = 0; ifig_cli_command(i) != NULL; i++) {
        const int owner = ifig_cli_command(i)->bit;
        if ((commands & (unsigned)owner) != 0) {
            const size_t used = strlen(owners);
            snprintf(owners + used, sizeof owners - used, "%s%s",
                     used == 0  ? ""
                     : left > 1 ? ", "
                                : " and ",
                     ifig_cli_command_name(owner));
            left--;
        }
    }
    return ifig_cli_refuse(settings,
                           "%s belongs to %s, not to %s; 'interfig %s --help' lists what it "
                           "takes",
                           ifig_cli_label(option).text, owners, ifig_cli_command_name(command),
                           ifig_cli_command_name(command));
}

/* Two commands may each have an option of one name (--from of turn and of exercise): the command's
 * own. */
static int own_option(int command, int id)
{
    for (int other = 0; other < IFIG_CLI_OPTION_COUNT; other++) {
        const IfigCliOption *option = ifig_cli_option(other);
        if ((option->commands & command) != 0 &&
            strcmp(option->name, ifig_cli_option(id)->name) == 0) {
            return other;
        }
    }
    return id;
}

IfigCliStatus ifig_cli_take_option(int command, int id, const char *value,
                                   IfigCliSettings *settings)
{
    const IfigCliOption *option = ifig_cli_option(id);
    const IfigCliLabel label = ifig_cli_label(option);
    IfigCliWrong wrong = {""};
    if ((option->commands & command) == 0) {
        return refuse_foreign(command, option, settings);
    }
    if (settings->given[id] && !option->may_repeat) {
        return ifig_cli_refuse(settings, "%s is given twice; give it once", label.text);
    }
    settings->given[id] = 1;
    if (option->read != NULL && !option->read(option, value, settings, &wrong)) {
        return ifig_cli_refuse(settings, "%s: '%s' %s; allowed: %s; for example: %s %s", label.text,
                               ifig_cli_shown(value).text, wrong.text,
                               ifig_cli_allowed(option).text, label.text, option->example);
    }
    return IFIG_CLI_OK;
}

static IfigCliStatus take_word(int command, const char *word, IfigCliSettings *settings)
{
    const size_t most =
        command == IFIG_CLI_CONTRAST ? IFIG_CLI_WORDS_MAX
        : command == IFIG_CLI_NARROW || command == IFIG_CLI_CHART || command == IFIG_CLI_EXERCISE
            ? 0
            : 1;
    if (settings->word_count < most) {
        settings->words[settings->word_count++] = word;
        settings->word = settings->words[0];
        return IFIG_CLI_OK;
    }
    if (command == IFIG_CLI_NARROW) { /* --observed KEY=VALUE KEY=VALUE ... */
        return strchr(word, '=') != NULL
                   ? ifig_cli_take_option(command, IFIG_CLI_OBSERVED, word, settings)
                   : ifig_cli_refuse(settings,
                                     "'%s' stands alone; narrow takes observations, such as "
                                     "--observed reaction=DR sign=+",
                                     ifig_cli_shown(word).text);
    }
    if (command == IFIG_CLI_CHART) {
        return ifig_cli_refuse(settings,
                               "'%s' stands alone; chart takes species behind --species, such as "
                               "--species quartz,topaz_f",
                               ifig_cli_shown(word).text);
    }
    if (command == IFIG_CLI_EXERCISE) {
        return ifig_cli_refuse(settings,
                               "'%s' stands alone; exercise takes its stones behind --from, with "
                               "commas between them, such as --from quartz,ruby",
                               ifig_cli_shown(word).text);
    }
    if (command == IFIG_CLI_CONTRAST) {
        return ifig_cli_refuse(settings, "'%s' is one stone too many: contrast takes 2 to %d",
                               ifig_cli_shown(word).text, IFIG_CLI_WORDS_MAX);
    }
    return ifig_cli_refuse(settings,
                           "'%s' is one word too many after '%s': %s takes one; put a "
                           "name of several words in quotes",
                           ifig_cli_shown(word).text, ifig_cli_shown(settings->word).text,
                           ifig_cli_command_name(command));
}

/* getopt_long said '?' or ':': which option, and what is the matter? */
static IfigCliStatus refuse_answer(int command, int answer, const char *word,
                                   const IfigCliSettings *settings)
{
    const IfigCliOption *option = NULL;
    for (int id = 0; id < IFIG_CLI_OPTION_COUNT; id++) {
        const IfigCliOption *one = ifig_cli_option(own_option(command, id));
        const size_t length = strlen(one->name);
        const int is_long = strncmp(word, "--", 2) == 0 &&
                            strncmp(word + 2, one->name, length) == 0 &&
                            (word[2 + length] == '\0' || word[2 + length] == '=');
        const int is_short = word[0] == '-' && one->letter != 0 && word[1] == one->letter;
        option = is_long || is_short ? one : option;
    }
    if (option == NULL) {
        return refuse_unknown(command, word, settings);
    }
    if (answer == ':') {
        return ifig_cli_refuse(settings, "%s lacks its value; allowed: %s; for example: %s %s",
                               ifig_cli_label(option).text, ifig_cli_allowed(option).text,
                               ifig_cli_label(option).text, option->example);
    }
    return ifig_cli_refuse(settings,
                           "%s takes no value; write it alone, without '=' or anything "
                           "joined to it",
                           ifig_cli_label(option).text);
}

/* getopt_long takes abbreviations; scripts that use them break when an option is added. */
static int is_whole_name(const char *word, const IfigCliOption *option)
{
    const size_t length = strlen(option->name);
    return strncmp(word + 2, option->name, length) == 0 &&
           (word[2 + length] == '\0' || word[2 + length] == '=');
}

IfigCliStatus ifig_cli_read_arguments(int command, int count, char **words,
                                      IfigCliSettings *settings)
{
    struct option long_options[IFIG_CLI_OPTION_COUNT + 1];
    IfigCliStatus status = IFIG_CLI_OK;
    fill_long_options(long_options);
    settings->command = command;
    optind = 0; /* glibc: begin anew, since a recipe is read after the command line */
    opterr = 0;
    while (status == IFIG_CLI_OK && !settings->given[IFIG_CLI_HELP]) {
        /* "-": words come in their order, so that the word being read is known to be this one. */
        const char *word = words[optind > 0 ? optind : 1];
        const int answer = getopt_long(count, words, "-:ho:", long_options, NULL);
        if (answer == -1) {
            break;
        } else if (answer == A_WORD) {
            status = take_word(command, optarg, settings);
        } else if (answer == 'h' || answer == 'o') {
            status = ifig_cli_take_option(command, answer == 'h' ? IFIG_CLI_HELP : IFIG_CLI_OUTPUT,
                                          optarg, settings);
        } else if (answer >= LONG_OPTION) {
            const int id = own_option(command, answer - LONG_OPTION);
            status = is_whole_name(word, ifig_cli_option(id))
                         ? ifig_cli_take_option(command, id, optarg, settings)
                         : refuse_unknown(command, word, settings);
        } else {
            status = refuse_answer(command, answer, word, settings);
        }
    }
    for (; status == IFIG_CLI_OK && !settings->given[IFIG_CLI_HELP] && optind < count; optind++) {
        status = take_word(command, words[optind], settings);
    }
    return status;
}
