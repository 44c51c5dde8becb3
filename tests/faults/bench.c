/* SPDX-License-Identifier: MIT */
#include "bench.h"

IfigStatus bench_lamp(int kind, IfigLamp **lamp)
{
    static const double nm[] = {400, 500, 700}, power[] = {0.2, 1, 0.5};
    if (kind == 5) {
        return ifig_lamp_create_line(589.3, lamp, NULL);
    }
    return kind == 4 ? ifig_lamp_create_spectrum(nm, power, 3, lamp, NULL)
                     : ifig_lamp_create((IfigLampKind)kind, lamp, NULL);
}

IfigStatus bench_set_up(const Scenario *scenario, Bench *bench)
{
    const IfigSpecies *species = NULL;
    *bench = (Bench){.scene = IFIG_SCENE_INIT};
    IfigStatus status = ifig_catalogue_create(&bench->catalogue, NULL);
    if (status == IFIG_OK) {
        status = ifig_catalogue_find(bench->catalogue, scenario->key, &species, NULL);
    }
    if (status == IFIG_OK) {
        status = bench_lamp(scenario->lamp, &bench->lamp);
    }
    const int layers = scenario->layers > 0 ? scenario->layers : 1;
    for (int i = 0; i < layers; i++) {
        bench->layer[i] = (IfigLayer)IFIG_LAYER_INIT;
        bench->layer[i].species = species;
        bench->layer[i].hand = i % 2 ? IFIG_HAND_LEFT : IFIG_HAND_RIGHT;
        bench->layer[i].thickness_mm = scenario->thickness_mm > 0 ? scenario->thickness_mm : 3.0;
        bench->layer[i].stress_mpa = scenario->stress_mpa;
        bench->layer[i].body_colour =
            status == IFIG_OK ? ifig_species_colour_of_word(species, scenario->key) : 0;
    }
    if (scenario->circular) {
        bench->scene.instrument.polariser.kind = IFIG_POLAR_RIGHT;
        bench->scene.instrument.analyser.kind = IFIG_POLAR_LEFT;
    }
    bench->scene.layers = bench->layer;
    bench->scene.layer_count = (size_t)layers;
    bench->scene.lamp = bench->lamp;
    return status;
}

void bench_take_down(Bench *bench)
{
    ifig_lamp_free(bench->lamp);
    ifig_catalogue_free(bench->catalogue);
}
