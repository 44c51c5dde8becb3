// SPDX-License-Identifier: MIT
// A stranger's program in C++20: the two figures as raw RGB on standard output, with every
// initialiser of the public headers, and handles that free themselves.
#include <interfig/interfig.h>

#include <cstdio>
#include <cstdlib>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

namespace
{

template <auto release> struct Releaser {
    template <class T> void operator()(T *handle) const
    {
        release(handle);
    }
};
using Catalogue = std::unique_ptr<IfigCatalogue, Releaser<ifig_catalogue_free>>;
using Lamp = std::unique_ptr<IfigLamp, Releaser<ifig_lamp_free>>;
using Figure = std::unique_ptr<IfigFigure, Releaser<ifig_figure_free>>;

class Checked
{
  public:
    IfigError error = IFIG_ERROR_INIT;

    void operator=(IfigStatus status)
    {
        if (status != IFIG_OK) {
            throw std::runtime_error(error.message);
        }
    }
};

// Initialisers that the two figures do not need must compile all the same.
[[maybe_unused]] const IfigReading unused_reading = IFIG_READING_INIT;
[[maybe_unused]] const IfigSpeciesRecord unused_record = IFIG_SPECIES_RECORD_INIT;
[[maybe_unused]] const IfigPngOptions unused_png = IFIG_PNG_OPTIONS_INIT;
[[maybe_unused]] const IfigTexture unused_texture = IFIG_TEXTURE_INIT;
[[maybe_unused]] const IfigBlink unused_blink = IFIG_BLINK_INIT;
[[maybe_unused]] const IfigHunt unused_hunt = IFIG_HUNT_INIT;
[[maybe_unused]] const IfigTraits unused_traits = IFIG_TRAITS_INIT;

std::vector<unsigned char> render(const IfigLayer &stone, const IfigLamp *lamp)
{
    Checked checked;
    IfigScene scene = IFIG_SCENE_INIT;
    IfigFigureOptions options = IFIG_FIGURE_OPTIONS_INIT;
    scene.layers = &stone;
    scene.layer_count = 1;
    scene.lamp = lamp;
    options.pixels = 128;
    IfigFigure *made = nullptr;
    checked = ifig_figure_create(&scene, &options, &made, &checked.error);
    Figure figure(made);
    std::vector<unsigned char> rgb(3 * options.pixels * options.pixels);
    checked = ifig_figure_render(figure.get(), IFIG_PIXELS_SRGB8, 0, options.pixels, rgb.data(),
                                 &checked.error);
    return rgb;
}

IfigLayer layer(const Catalogue &catalogue, const std::string &name)
{
    Checked checked;
    IfigLayer stone = IFIG_LAYER_INIT;
    checked = ifig_catalogue_find(catalogue.get(), name.c_str(), &stone.species, &checked.error);
    return stone;
}

void write_two_figures()
{
    Checked checked;
    IfigCatalogue *catalogue_made = nullptr;
    checked = ifig_catalogue_create(&catalogue_made, &checked.error);
    Catalogue catalogue(catalogue_made);
    IfigLamp *lamp_made = nullptr;
    checked = ifig_lamp_create(IFIG_LAMP_DAYLIGHT, &lamp_made, &checked.error);
    Lamp lamp(lamp_made);

    IfigLayer quartz = layer(catalogue, "quartz");
    IfigLayer muscovite = layer(catalogue, "muscovite");
    muscovite.thickness_mm = 0.1;
    muscovite.orientation.tilt_deg = 20;
    muscovite.orientation.tilt_azimuth_deg = 30;
    muscovite.orientation.stage_deg = 45;
    for (const IfigLayer &stone : {quartz, muscovite}) {
        std::vector<unsigned char> rgb = render(stone, lamp.get());
        if (std::fwrite(rgb.data(), 1, rgb.size(), stdout) != rgb.size()) {
            throw std::runtime_error("standard output cannot be written");
        }
    }
}

} // namespace

int main()
{
    try {
        write_two_figures();
        return EXIT_SUCCESS;
    } catch (const std::exception &trouble) {
        std::fprintf(stderr, "%s\n", trouble.what());
        return EXIT_FAILURE;
    }
}
