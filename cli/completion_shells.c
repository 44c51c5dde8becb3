/* SPDX-License-Identifier: MIT */
/* The completion scripts of three shells, all of the same tables. */
#include "completion.h"

#include <string.h>

/* Text within single quotes, with a backslash before each letter of a set. */
static void print_quoted(const char *text, int length, const char *special)
{
    for (int i = 0; i < length; i++) {
        if (text[i] == '\'') {
            fputs("'\\''", stdout);
        } else {
            printf("%s%c", strchr(special, text[i]) != NULL ? "\\" : "", text[i]);
        }
    }
}

/* The next option of a command from a place on; NULL behind the last. */
static const IfigCliOption *next_option(const IfigCliCommand *command, int *id)
{
    for (; *id < IFIG_CLI_OPTION_COUNT; (*id)++) {
        const IfigCliOption *option = ifig_cli_option(*id);
        if ((option->commands & command->bit) != 0) {
            (*id)++;
            return option;
        }
    }
    return NULL;
}

static IfigCliStatus print_bash_value(const IfigCliOption *option)
{
    const IfigCliValueKind kind = ifig_cli_value_kind(option);
    IfigCliStatus status = IFIG_CLI_OK;
    if (kind == IFIG_CLI_VALUE_NONE) {
        return status;
    }
    fputs("        ", stdout);
    if (option->letter != 0) {
        printf("-%c | ", option->letter);
    }
    printf("--%s) ", option->name);
    if (kind == IFIG_CLI_VALUE_FILE) {
        fputs("kind=file", stdout);
    } else if (kind == IFIG_CLI_VALUE_WORDS) {
        fputs("kind=words words='", stdout);
        status = ifig_cli_print_choice(option, 0);
        putchar('\'');
    } else if (kind == IFIG_CLI_VALUE_SPECIES_LIST) {
        fputs("kind=list words=$species'", stdout);
        status = ifig_cli_print_choice(option, 0);
        putchar('\'');
    } else {
        fputs("kind=free", stdout);
    }
    fputs(" ;;\n", stdout);
    return status;
}

static IfigCliStatus print_bash_command(const IfigCliCommand *command)
{
    const IfigCliWordKind kind = ifig_cli_word_kind(command);
    IfigCliStatus status = IFIG_CLI_OK;
    const IfigCliOption *option;
    printf("    %s)\n        options='", command->name);
    for (int id = 0; (option = next_option(command, &id)) != NULL;) {
        printf(" --%s", option->name);
        if (option->letter != 0) {
            printf(" -%c", option->letter);
        }
    }
    fputs("'\n", stdout);
    if (kind == IFIG_CLI_WORD_FILE) {
        fputs("        kind=file\n", stdout);
    } else if (kind == IFIG_CLI_WORD_SPECIES) {
        fputs("        words=$species\n", stdout);
    } else {
        fputs("        words='", stdout);
        status = ifig_cli_print_words(kind);
        fputs("'\n", stdout);
    }
    fputs("        case $previous in\n", stdout);
    for (int id = 0; status == IFIG_CLI_OK && (option = next_option(command, &id)) != NULL;) {
        status = print_bash_value(option);
    }
    fputs("        esac\n        ;;\n", stdout);
    return status;
}

IfigCliStatus ifig_cli_print_bash(void)
{
    const IfigCliCommand *command;
    fputs("# bash completion of interfig; written by: interfig completion bash\n"
          "_interfig()\n"
          "{\n"
          "    local current=$2 previous=$3 kind=words words= options=\n"
          "    local species='",
          stdout);
    IfigCliStatus status = ifig_cli_print_words(IFIG_CLI_WORD_SPECIES);
    fputs("'\n"
          "    COMPREPLY=()\n"
          "    if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
          "        words='--help --version",
          stdout);
    for (int i = 0; (command = ifig_cli_command(i)) != NULL; i++) {
        printf(" %s", command->name);
    }
    fputs("'\n"
          "        mapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"$current\")\n"
          "        return\n"
          "    fi\n"
          "    case ${COMP_WORDS[1]} in\n",
          stdout);
    for (int i = 0; status == IFIG_CLI_OK && (command = ifig_cli_command(i)) != NULL; i++) {
        status = print_bash_command(command);
    }
    fputs("    esac\n"
          "    if [ \"$kind\" != free ] && [ \"${current#-}\" != \"$current\" ]; then\n"
          "        kind=words words=$options\n"
          "    fi\n"
          "    case $kind in\n"
          "    words) mapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"$current\") ;;\n"
          "    list)\n"
          "        local before=${current%\"${current##*,}\"}\n"
          "        compopt -o nospace 2>/dev/null\n"
          "        mapfile -t COMPREPLY < \\\n"
          "            <(compgen -P \"$before\" -W \"$words\" -- \"${current##*,}\")\n"
          "        ;;\n"
          "    file)\n"
          "        compopt -o filenames 2>/dev/null\n"
          "        mapfile -t COMPREPLY < <(compgen -f -- \"$current\")\n"
          "        ;;\n"
          "    esac\n"
          "}\n"
          "complete -F _interfig interfig\n",
          stdout);
    return status;
}

/* What completes a value: the action of _arguments. */
static IfigCliStatus print_zsh_action(const IfigCliOption *option, IfigCliValueKind kind)
{
    IfigCliStatus status = IFIG_CLI_OK;
    if (kind == IFIG_CLI_VALUE_FILE) {
        fputs("_files", stdout);
    } else if (kind == IFIG_CLI_VALUE_WORDS) {
        putchar('(');
        status = ifig_cli_print_choice(option, 1);
        putchar(')');
    } else if (kind == IFIG_CLI_VALUE_SPECIES_LIST) {
        fputs(" _sequence compadd - ${=species}", stdout);
        status = ifig_cli_print_choice(option, 1);
    }
    return status;
}

static IfigCliStatus print_zsh_option(const IfigCliOption *option)
{
    const IfigCliValueKind kind = ifig_cli_value_kind(option);
    IfigCliStatus status = IFIG_CLI_OK;
    for (int form = option->letter != 0 ? 0 : 1; form < 2; form++) {
        fputs("            '", stdout);
        fputs(option->may_repeat ? "*" : "", stdout);
        if (form == 0) {
            printf("-%c[", option->letter);
        } else {
            printf("--%s[", option->name);
        }
        print_quoted(option->help, ifig_cli_clause_length(option->help), "[]\\");
        putchar(']');
        if (kind != IFIG_CLI_VALUE_NONE) {
            putchar(':');
            print_quoted(option->argument, (int)strlen(option->argument), ":[]\\");
            putchar(':');
        }
        status = print_zsh_action(option, kind);
        fputs("' \\\n", stdout);
    }
    return status;
}

static IfigCliStatus print_zsh_command(const IfigCliCommand *command)
{
    const IfigCliWordKind kind = ifig_cli_word_kind(command);
    const IfigCliOption *option;
    IfigCliStatus status = IFIG_CLI_OK;
    printf("    %s)\n        _arguments \\\n", command->name);
    for (int id = 0; status == IFIG_CLI_OK && (option = next_option(command, &id)) != NULL;) {
        status = print_zsh_option(option);
    }
    if (kind == IFIG_CLI_WORD_FILE) {
        fputs("            '*:file:_files'\n", stdout);
    } else if (kind == IFIG_CLI_WORD_SPECIES) {
        fputs("            \"*:species:($species)\"\n", stdout);
    } else {
        fputs("            '*:word:(", stdout);
        status = ifig_cli_print_words(kind);
        fputs(")'\n", stdout);
    }
    fputs("        ;;\n", stdout);
    return status;
}

IfigCliStatus ifig_cli_print_zsh(void)
{
    const IfigCliCommand *command;
    fputs("#compdef interfig\n"
          "# zsh completion of interfig; written by: interfig completion zsh\n"
          "_interfig() {\n"
          "    local species='",
          stdout);
    IfigCliStatus status = ifig_cli_print_words(IFIG_CLI_WORD_SPECIES);
    fputs("'\n"
          "    local -a commands=(\n",
          stdout);
    for (int i = 0; (command = ifig_cli_command(i)) != NULL; i++) {
        printf("        '%s:", command->name);
        print_quoted(command->summary, (int)strlen(command->summary), ":\\");
        fputs("'\n", stdout);
    }
    fputs("    )\n"
          "    if (( CURRENT == 2 )); then\n"
          "        _describe command commands\n"
          "        return\n"
          "    fi\n"
          "    local command=$words[2]\n"
          "    shift words\n"
          "    (( CURRENT-- ))\n"
          "    case $command in\n",
          stdout);
    for (int i = 0; status == IFIG_CLI_OK && (command = ifig_cli_command(i)) != NULL; i++) {
        status = print_zsh_command(command);
    }
    fputs("    esac\n"
          "}\n"
          "if [ \"${funcstack[1]}\" = _interfig ]; then\n"
          "    _interfig \"$@\"\n"
          "else\n"
          "    compdef _interfig interfig\n"
          "fi\n",
          stdout);
    return status;
}

static IfigCliStatus print_fish_option(const IfigCliCommand *command, const IfigCliOption *option)
{
    const IfigCliValueKind kind = ifig_cli_value_kind(option);
    IfigCliStatus status = IFIG_CLI_OK;
    printf("complete -c interfig -n '__interfig_is %s' -l %s", command->name, option->name);
    if (option->letter != 0) {
        printf(" -s %c", option->letter);
    }
    if (kind == IFIG_CLI_VALUE_FILE) {
        fputs(" -r -F", stdout);
    } else if (kind == IFIG_CLI_VALUE_WORDS) {
        fputs(" -x -a '", stdout);
        status = ifig_cli_print_choice(option, 0);
        putchar('\'');
    } else if (kind == IFIG_CLI_VALUE_SPECIES_LIST) {
        fputs(" -x -a '(__interfig_list $__interfig_species", stdout);
        status = ifig_cli_print_choice(option, 0);
        fputs(")'", stdout);
    } else if (kind == IFIG_CLI_VALUE_FREE) {
        fputs(" -x", stdout);
    }
    fputs(" -d '", stdout);
    print_quoted(option->help, ifig_cli_clause_length(option->help), "\\");
    fputs("'\n", stdout);
    return status;
}

/* All of one command. */
static IfigCliStatus print_fish_command(const IfigCliCommand *command)
{
    const IfigCliWordKind kind = ifig_cli_word_kind(command);
    IfigCliStatus status = IFIG_CLI_OK;
    const IfigCliOption *option;
    printf("complete -c interfig -n __fish_use_subcommand -a %s -d '", command->name);
    print_quoted(command->summary, (int)strlen(command->summary), "\\");
    fputs("'\n", stdout);
    for (int id = 0; status == IFIG_CLI_OK && (option = next_option(command, &id)) != NULL;) {
        status = print_fish_option(command, option);
    }
    if (status == IFIG_CLI_OK && kind != IFIG_CLI_WORD_NONE) {
        printf("complete -c interfig -n '__interfig_is %s' ", command->name);
        fputs(kind == IFIG_CLI_WORD_FILE ? "-F" : "-a '", stdout);
        status = ifig_cli_print_words(kind);
        fputs(kind == IFIG_CLI_WORD_FILE ? "\n" : "'\n", stdout);
    }
    return status;
}

IfigCliStatus ifig_cli_print_fish(void)
{
    const IfigCliCommand *command;
    fputs("# fish completion of interfig; written by: interfig completion fish\n"
          "function __interfig_is\n"
          "    set -l words (commandline -opc)\n"
          "    test (count $words) -ge 2; and test $words[2] = $argv[1]\n"
          "end\n"
          "function __interfig_list\n"
          "    set -l before (commandline -ct | string replace -r '[^,]*$' '')\n"
          "    printf '%s\\n' \"$before\"$argv\n"
          "end\n"
          "set -g __interfig_species",
          stdout);
    IfigCliStatus status = ifig_cli_print_words(IFIG_CLI_WORD_SPECIES);
    fputs("\n"
          "complete -c interfig -f\n"
          "complete -c interfig -n __fish_use_subcommand -l help -d 'the commands'\n"
          "complete -c interfig -n __fish_use_subcommand -l version -d 'the version'\n",
          stdout);
    for (int i = 0; status == IFIG_CLI_OK && (command = ifig_cli_command(i)) != NULL; i++) {
        status = print_fish_command(command);
    }
    return status;
}
