/* SPDX-License-Identifier: MIT */
/* Everything that is said of a stone, boiled down to one number. */
#include "recipes.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static _Thread_local char text[16384];

static uint64_t hash_text(uint64_t hash, const char *words)
{
    return hash_bytes(hash, words, strlen(words) + 1);
}

static uint64_t hash_status(uint64_t hash, IfigStatus status, const IfigError *error)
{
    const int number = (int)status;
    return hash_text(hash_bytes(hash, &number, sizeof number), error->message);
}

static uint64_t hash_reading(uint64_t hash, const IfigScene *scene)
{
    IfigReading reading = IFIG_READING_INIT;
    IfigError error = IFIG_ERROR_INIT;
    const IfigStatus status = ifig_reading(scene, &reading, &error);
    if (status == IFIG_OK &&
        ifig_reading_describe(&reading, text, sizeof text, &error) == IFIG_OK) {
        hash = hash_text(hash, text);
        hash = hash_bytes(hash, reading.two_v_deg, sizeof reading.two_v_deg);
        hash = hash_bytes(hash, reading.melatope[0].ring_deg, sizeof reading.melatope[0].ring_deg);
    }
    return hash_status(hash, status, &error);
}

static uint64_t hash_blink(uint64_t hash, IfigScene scene)
{
    IfigBlink blink = IFIG_BLINK_INIT;
    IfigError error = IFIG_ERROR_INIT;
    scene.instrument.lens = IFIG_LENS_NONE;
    scene.instrument.field_deg = 0;
    const IfigStatus status = ifig_blink(&scene, NULL, &blink, &error);
    if (status == IFIG_OK && ifig_blink_describe(&blink, text, sizeof text, &error) == IFIG_OK) {
        hash = hash_text(hash, text);
        hash = hash_bytes(hash, blink.brightness, sizeof blink.brightness);
        hash = hash_bytes(hash, blink.colour_srgb, sizeof blink.colour_srgb);
    }
    return hash_status(hash, status, &error);
}

static uint64_t hash_hunt(uint64_t hash, const IfigScene *scene)
{
    IfigHunt hunt = IFIG_HUNT_INIT;
    IfigError error = IFIG_ERROR_INIT;
    const IfigStatus status = ifig_hunt(scene, &hunt, &error);
    if (status == IFIG_OK && ifig_hunt_describe(&hunt, text, sizeof text, &error) == IFIG_OK) {
        hash = hash_text(hash, text);
        hash = hash_bytes(hash, hunt.patch_sr, sizeof hunt.patch_sr);
        hash = hash_bytes(hash, hunt.false_single, sizeof hunt.false_single);
    }
    return hash_status(hash, status, &error);
}

static uint64_t hash_contrast(uint64_t hash, const IfigCatalogue *catalogue,
                              const IfigSpecies *species)
{
    IfigPairContrast contrast = IFIG_PAIR_CONTRAST_INIT;
    IfigError error = IFIG_ERROR_INIT;
    const IfigStone first = {species, 0, NULL}, second = {ifig_catalogue_at(catalogue, 0), 0, NULL};
    const IfigStatus status = ifig_contrast(&first, &second, NULL, 3.0, &contrast, &error);
    if (status == IFIG_OK &&
        ifig_contrast_describe(&first, &second, &contrast, text, sizeof text, &error) == IFIG_OK) {
        hash = hash_text(hash, text);
    }
    return hash_status(hash, status, &error);
}

static uint64_t hash_narrowing(uint64_t hash, const IfigCatalogue *catalogue)
{
    IfigObservation seen[2];
    IfigNarrowing *narrowing = NULL;
    IfigError error = IFIG_ERROR_INIT;
    IfigStatus status = ifig_observation_read("reaction=DR", &seen[0], &error);
    if (status == IFIG_OK) {
        status = ifig_observation_read("index=1.544-1.553", &seen[1], &error);
        hash = hash_text(hash, ifig_observation_text(&seen[1]).text);
    }
    if (status == IFIG_OK) {
        status = ifig_narrow(catalogue, seen, 2, NULL, 3.0, &narrowing, &error);
    }
    if (status == IFIG_OK &&
        ifig_narrowing_describe(narrowing, text, sizeof text, &error) == IFIG_OK) {
        hash = hash_text(hash, text);
    }
    ifig_narrowing_free(narrowing);
    return hash_status(hash, status, &error);
}

/* Capitals whose small letters are others in Turkish, accents, and what no stone is called. */
static uint64_t hash_look_ups(uint64_t hash, const IfigCatalogue *catalogue)
{
    static const char *const words[] = {"RUBY",   "TITANITE",     "IOLITE", "KYANITE",
                                        "QUARTZ", "Rock Crystal", "quarz",  "PERIDOT",
                                        "iolite", "TOURMALINE",   "jade",   "B\xc3\x89RYL"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        const IfigSpecies *species = NULL;
        IfigError error = IFIG_ERROR_INIT;
        const IfigStatus status = ifig_catalogue_find(catalogue, words[i], &species, &error);
        hash = hash_status(hash, status, &error);
        hash = hash_text(hash, species != NULL ? ifig_species_text(species, IFIG_TEXT_KEY) : "-");
        if (species != NULL) {
            const int colour = ifig_species_colour_of_word(species, words[i]);
            hash = hash_bytes(hash, &colour, sizeof colour);
        }
    }
    return hash;
}

static uint64_t hash_observations(uint64_t hash)
{
    static const char *const words[] = {
        "INDEX=1.5", "sign=-",     "two-v=60",      "rings=3.5",
        "index=1,5", "sign=minus", "colour=VIOLET", "birefringence=1e-2"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        IfigObservation seen;
        IfigError error = IFIG_ERROR_INIT;
        const IfigStatus status = ifig_observation_read(words[i], &seen, &error);
        hash = hash_status(hash, status, &error);
        hash = hash_text(hash, status == IFIG_OK ? ifig_observation_text(&seen).text : "-");
    }
    return hash;
}

uint64_t words_hash(const IfigCatalogue *catalogue, const Recipe *recipe)
{
    const IfigSpecies *species = recipe->layers[0].species;
    IfigScene scene = recipe->scene;
    IfigProbe probe = {.transmittance = -1};
    IfigError error = IFIG_ERROR_INIT;
    uint64_t hash = HASH_START;
    scene.layer_count = 1;
    const IfigStatus status = ifig_probe(&scene, 11.5, 30.25, 550.5, &probe, &error);
    hash = hash_status(hash, status, &error);
    /* Compilers multiply complex numbers in their own order: the last bits are not promised. */
    const long long trillionths = llround(probe.transmittance * 1e12);
    hash = hash_bytes(hash, &trillionths, sizeof trillionths);
    hash = hash_reading(hash, &scene);
    hash = hash_blink(hash, scene);
    hash = hash_hunt(hash, &scene);
    hash = hash_contrast(hash, catalogue, species);
    hash = hash_narrowing(hash, catalogue);
    hash = hash_look_ups(hash, catalogue);
    return hash_observations(hash);
}
