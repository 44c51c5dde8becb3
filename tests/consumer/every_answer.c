/* SPDX-License-Identifier: MIT */
/* Every kind of answer of the optics, without the program: Jones matrix, retardation,
 * transmittance, melatopes, reading and reaction of a tilted plate of muscovite, as JSON. */
#include <interfig/interfig.h>

#include <stdio.h>
#include <stdlib.h>

static void print_wave(const IfigProbe *probe)
{
    printf("\"retardation_nm\": %.17g, \"transmittance\": %.17g, \"jones_ps\": [",
           probe->wave.retardation_nm, probe->transmittance);
    for (int row = 0; row < 2; row++) {
        printf("%s[", row ? ", " : "");
        for (int column = 0; column < 2; column++) {
            const IfigComplex *z = &probe->wave.jones.element[row][column];
            printf("%s[%.17g, %.17g]", column ? ", " : "", z->re, z->im);
        }
        printf("]");
    }
    printf("]");
}

static void print_reading(const IfigReading *reading)
{
    printf("\"melatopes\": [");
    for (size_t i = 0; i < reading->melatope_count; i++) {
        printf("%s[%.17g, %.17g]", i ? ", " : "", reading->melatope[i].x, reading->melatope[i].y);
    }
    printf("], \"optic_sign\": %d, \"two_v_deg\": %.17g", reading->optic_sign,
           reading->two_v_deg[IFIG_READING_D]);
}

/* Ask everything of a scene, print the answers. */
static IfigStatus print_answers(const IfigScene *scene, IfigError *error)
{
    IfigScene face = *scene;
    IfigProbe probe;
    IfigReading reading = IFIG_READING_INIT;
    IfigBlink blink = IFIG_BLINK_INIT;
    char words[IFIG_READING_TEXT_MAX];
    IfigStatus status = ifig_probe(scene, 0.0, 0.0, 0.0, &probe, error);
    face.instrument.lens = IFIG_LENS_NONE;
    if (status == IFIG_OK) {
        status = ifig_reading(scene, &reading, error);
    }
    if (status == IFIG_OK) {
        status = ifig_reading_describe(&reading, words, sizeof words, error);
    }
    if (status == IFIG_OK) {
        status = ifig_blink(&face, NULL, &blink, error);
    }
    if (status == IFIG_OK) {
        printf("{");
        print_wave(&probe);
        printf(", ");
        print_reading(&reading);
        printf(", \"reaction\": \"%s\"}\n%s", ifig_reaction_text(blink.reaction), words);
    }
    return status;
}

int main(void)
{
    IfigError error = IFIG_ERROR_INIT;
    IfigCatalogue *catalogue = NULL;
    IfigLamp *lamp = NULL;
    IfigLayer stone = IFIG_LAYER_INIT;
    IfigScene scene = IFIG_SCENE_INIT;
    IfigStatus status = ifig_catalogue_create(&catalogue, &error);
    if (status == IFIG_OK) {
        status = ifig_catalogue_find(catalogue, "muscovite", &stone.species, &error);
    }
    if (status == IFIG_OK) {
        status = ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &lamp, &error);
    }
    if (status == IFIG_OK) {
        stone.thickness_mm = 0.1;
        stone.orientation.tilt_deg = 20.0;
        stone.orientation.tilt_azimuth_deg = 30.0;
        stone.orientation.stage_deg = 45.0;
        scene.layers = &stone;
        scene.layer_count = 1;
        scene.lamp = lamp;
        status = print_answers(&scene, &error);
    }
    ifig_lamp_free(lamp);
    ifig_catalogue_free(catalogue);
    if (status != IFIG_OK) {
        fprintf(stderr, "%s\n", error.message);
        return EXIT_FAILURE;
    }
    return EXIT_SUCCESS;
}
