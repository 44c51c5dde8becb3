/* SPDX-License-Identifier: MIT */
/* Observations as a user writes them. */
#include "advice_test.h"

START_TEST(words_are_read_without_regard_to_case)
{
    ck_assert_uint_eq(seen("reaction=dr").words, 1u << IFIG_REACTION_DR);
    ck_assert_uint_eq(seen("Reaction=SR/ADR").words,
                      1u << IFIG_REACTION_SR | 1u << IFIG_REACTION_ADR);
    ck_assert_uint_eq(seen("character=Uniaxial").words, 1u << IFIG_UNIAXIAL);
    ck_assert_uint_eq(seen("sign=+").words, IFIG_SIGN_POSITIVE);
    ck_assert_uint_eq(seen("sign=-").words, IFIG_SIGN_NEGATIVE);
    ck_assert_uint_eq(seen("sign=negative").words, IFIG_SIGN_NEGATIVE);
    ck_assert_uint_eq(seen("bulls-eye=yes").words, IFIG_EYE_YES);
    ck_assert_uint_eq(seen("bulls_eye=no").words, IFIG_EYE_NO);
    ck_assert_uint_eq(seen("colour=yellow-green").words, 1u << IFIG_HUE_YELLOW_GREEN);
    ck_assert_uint_eq(seen("colour=pink").words, 1u << IFIG_HUE_RED | 1u << IFIG_HUE_PURPLE);
    ck_assert_uint_eq(seen("colour=white").words, 1u << IFIG_HUE_NEUTRAL);
}
END_TEST

START_TEST(a_single_number_is_widened_and_a_range_taken_as_it_is)
{
    const IfigObservation one = seen("index=1.544"), two = seen("index=1.54-1.55");
    ck_assert_double_eq_tol(one.low, 1.541, 1e-12);
    ck_assert_double_eq_tol(one.high, 1.547, 1e-12);
    ck_assert_double_eq(two.low, 1.54);
    ck_assert_double_eq(two.high, 1.55);
    ck_assert(isnan(two.value) && one.value == 1.544);
    ck_assert_double_eq(seen("birefringence=0.001").low, 0.0);
    ck_assert_double_eq_tol(seen("birefringence=9e-3").high, 0.011, 1e-12);
    ck_assert_double_eq_tol(seen("birefringence=9E-3").high, 0.011, 1e-12);
    ck_assert_double_eq(seen("two-v=85").high, 90.0);
    ck_assert_double_eq(seen("rings=4").low, 3.75);
    ck_assert_double_ge(seen("index=over").low, 1.79);
}
END_TEST

START_TEST(an_observation_is_written_as_it_was_read)
{
    static const char *const texts[] = {"reaction=SR/ADR",
                                        "character=biaxial",
                                        "sign=-",
                                        "two-v=60",
                                        "two-v=55-65",
                                        "rings=4",
                                        "birefringence=0.009",
                                        "index=1.54",
                                        "bulls-eye=yes",
                                        "sign=none",
                                        "colour=red",
                                        "colour=red/yellow green",
                                        "index=1.5-1.6"};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        const IfigObservation observation = seen(texts[i]);
        ck_assert_str_eq(ifig_observation_text(&observation).text, texts[i]);
    }
}
END_TEST

typedef struct Refusal {
    const char *text;
    IfigStatus status;
    const char *said;
} Refusal;

START_TEST(junk_is_refused_and_the_culprit_named)
{
    static const Refusal cases[] = {
        {"idnex=1.5", IFIG_ERROR_SYNTAX, "did you mean index?"},
        {"color=red", IFIG_ERROR_SYNTAX, "did you mean colour?"},
        {"hardness=7", IFIG_ERROR_SYNTAX, "the keys are reaction"},
        {"a-key-of-more-than-the-sixty-three-letters-that-are-looked-at-here=7", IFIG_ERROR_SYNTAX,
         "the keys are reaction"},
        {"reaction", IFIG_ERROR_SYNTAX, "write KEY=VALUE"},
        {"", IFIG_ERROR_SYNTAX, "write KEY=VALUE"},
        {"=", IFIG_ERROR_SYNTAX, "cannot be observed"},
        {"reaction=", IFIG_ERROR_SYNTAX, "reaction is ''; it takes SR, DR, AGG, ADR"},
        {"reaction=DR/", IFIG_ERROR_SYNTAX, "reaction is 'DR/'"},
        {"reaction=double", IFIG_ERROR_SYNTAX, "SR, DR, AGG, ADR"},
        {"sign=plus", IFIG_ERROR_SYNTAX, "+, -, none"},
        {"colour=mauve", IFIG_ERROR_SYNTAX, "violet"},
        {"index=1.54%", IFIG_ERROR_SYNTAX, "index is '1.54%'"},
        {"index=1,54", IFIG_ERROR_SYNTAX, "index is '1,54'"},
        {"index=nan", IFIG_ERROR_SYNTAX, "numbers from 1 to 5"},
        {"index=inf", IFIG_ERROR_SYNTAX, "numbers from 1 to 5"},
        {"index=0x2", IFIG_ERROR_SYNTAX, "numbers from 1 to 5"},
        {"index=1.5-", IFIG_ERROR_SYNTAX, "index is '1.5-'"},
        {"index=-1.5", IFIG_ERROR_RANGE, "numbers from 1 to 5"},
        {"index=1.6-1.5", IFIG_ERROR_RANGE, "index is '1.6-1.5'"},
        {"index=6", IFIG_ERROR_RANGE, "numbers from 1 to 5"},
        {"two-v=60deg", IFIG_ERROR_SYNTAX, "two-v is '60deg'"},
        {"two-v=95", IFIG_ERROR_RANGE, "degrees from 0 to 90"},
        {"rings=-1", IFIG_ERROR_RANGE, "orders from 0"},
        {"birefringence=1e999", IFIG_ERROR_SYNTAX, "numbers from 0 to 4"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        IfigObservation observation;
        IfigError error = IFIG_ERROR_INIT;
        ck_assert_msg(ifig_observation_read(cases[i].text, &observation, &error) == cases[i].status,
                      "%s: %s", cases[i].text, error.message);
        assert_says(error.message, cases[i].said);
    }
}
END_TEST

START_TEST(a_hostile_value_stays_out_of_the_message)
{
    char text[4096] = "index=";
    IfigObservation observation;
    IfigError error = IFIG_ERROR_INIT;
    memset(text + 6, '\033', sizeof text - 7);
    text[sizeof text - 1] = '\0';
    ck_assert_int_eq(ifig_observation_read(text, &observation, &error), IFIG_ERROR_SYNTAX);
    assert_silent(error.message, "\033");
    ck_assert_int_eq(ifig_observation_read(NULL, &observation, &error), IFIG_ERROR_ARGUMENT);
}
END_TEST

int main(void)
{
    TCase *facts = tcase_create("observation");
    tcase_add_test(facts, words_are_read_without_regard_to_case);
    tcase_add_test(facts, a_single_number_is_widened_and_a_range_taken_as_it_is);
    tcase_add_test(facts, an_observation_is_written_as_it_was_read);
    tcase_add_test(facts, junk_is_refused_and_the_culprit_named);
    tcase_add_test(facts, a_hostile_value_stays_out_of_the_message);
    return run_case(facts, "observation");
}
