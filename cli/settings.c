/* SPDX-License-Identifier: MIT */
#include "settings.h"

IfigCliSettings ifig_cli_default_settings(void)
{
    const IfigInstrument instrument = IFIG_INSTRUMENT_INIT;
    const IfigTexture texture = IFIG_TEXTURE_INIT;
    return (IfigCliSettings){
        .hand = IFIG_HAND_RIGHT,
        .thickness_mm = 3.0,
        .view = IFIG_VIEW_DEFAULT,
        .pattern = IFIG_PATTERN_USUAL,
        .width_mm = texture.width_mm,
        .seed = (int)texture.seed,
        .cone_deg = 0.5,
        .lens = (int)instrument.lens,
        .sphere_index = instrument.sphere_index,
        .aperture = instrument.aperture,
        .immersion_index = instrument.immersion_index,
        .lamp = IFIG_LAMP_DAYLIGHT,
        .polariser = instrument.polariser,
        .analyser = instrument.analyser,
        .polars = IFIG_CLI_POLARS_CROSSED,
        .plate_slow_deg = 45.0,
        .steps = 37,
        .count = 12,
        .level = 1,
        .delay_ms = 100,
        .orders = 5,
        .size = 1024,
        .depth = 8,
        .dpi = 300.0,
    };
}
