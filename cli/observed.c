/* SPDX-License-Identifier: MIT */
#include "observed.h"

#include "arguments.h"

int ifig_cli_read_observed(const IfigCliOption *option, const char *text, IfigCliSettings *settings,
                           IfigCliWrong *wrong)
{
    (void)option;
    if (text[0] == '\0') {
        snprintf(wrong->text, sizeof wrong->text, "is empty");
        return 0;
    }
    if (settings->observed_count == IFIG_CLI_OBSERVED_MAX) {
        snprintf(wrong->text, sizeof wrong->text, "is one observation too many: %d are the most",
                 IFIG_CLI_OBSERVED_MAX);
        return 0;
    }
    settings->observed[settings->observed_count++] = text;
    return 1;
}

IfigCliStatus ifig_cli_open_observed(const IfigCliSettings *settings, IfigObservation *observed)
{
    if (settings->observed_count == 0) {
        return ifig_cli_refuse(settings, "nothing is observed; say what you saw, such as "
                                         "--observed reaction=DR --observed index=1.54-1.55");
    }
    for (size_t i = 0; i < settings->observed_count; i++) {
        IfigError error = IFIG_ERROR_INIT;
        const IfigStatus status =
            ifig_observation_read(settings->observed[i], &observed[i], &error);
        if (status == IFIG_ERROR_SYNTAX || status == IFIG_ERROR_RANGE) {
            return ifig_cli_refuse(settings, "--observed: %s", error.message);
        }
        if (status != IFIG_OK) {
            return ifig_cli_complain(ifig_cli_exit_status(status, IFIG_CLI_WORDS), "%s",
                                     error.message);
        }
    }
    return IFIG_CLI_OK;
}
