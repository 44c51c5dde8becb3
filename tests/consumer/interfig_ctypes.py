# SPDX-License-Identifier: MIT
"""The optics from Python, through ctypes: no compiler, no module to build. Copy it into a
project of your own.

    import interfig_ctypes
    interfig = interfig_ctypes.Optics()
    rgb = interfig.figure("muscovite", pixels=512, thickness_mm=0.1, stage_deg=45)

The structures are those of include/interfig/*.h, field by field; each begins with its size, so that
a library of another generation refuses them instead of misreading them."""
import ctypes
import ctypes.util
from ctypes import POINTER, Structure, byref, c_char, c_char_p, c_double, c_int, c_size_t, c_uint32
from ctypes import c_void_p


class Error(Exception):
    """A call was refused: the status, and one sentence that says why and what helps."""

    def __init__(self, status, message):
        super().__init__(message)
        self.status = status


class _Error(Structure):
    _fields_ = [("status", c_int), ("message", c_char * 768)]


class Orientation(Structure):
    _fields_ = [("size", c_size_t), ("view", c_int), ("tilt_deg", c_double),
                ("tilt_azimuth_deg", c_double), ("stage_deg", c_double)]


class Layer(Structure):
    _fields_ = [("size", c_size_t), ("species", c_void_p), ("hand", c_int),
                ("orientation", Orientation), ("body_colour", c_int), ("stress_mpa", c_double),
                ("stress_azimuth_deg", c_double), ("thickness_mm", c_double)]


class Polar(Structure):
    _fields_ = [("kind", c_int), ("azimuth_deg", c_double)]


class Plate(Structure):
    _fields_ = [("material", c_int), ("retardation_nm", c_double), ("slow_azimuth_deg", c_double)]


class Instrument(Structure):
    _fields_ = [("size", c_size_t), ("lens", c_int), ("sphere_index", c_double),
                ("aperture", c_double), ("field_deg", c_double), ("immersion_index", c_double),
                ("polariser", Polar), ("analyser", Polar), ("plate", Plate)]


class Scene(Structure):
    _fields_ = [("size", c_size_t), ("layers", POINTER(Layer)), ("layer_count", c_size_t),
                ("instrument", Instrument), ("lamp", c_void_p)]


_Progress = ctypes.CFUNCTYPE(c_int, c_double, c_void_p)


class FigureOptions(Structure):
    _fields_ = [("size", c_size_t), ("pixels", c_uint32), ("exposure_stops", c_double),
                ("threads", c_int), ("progress", _Progress), ("progress_context", c_void_p)]


_SIGNATURES = {
    "ifig_catalogue_create": (c_int, POINTER(c_void_p), POINTER(_Error)),
    "ifig_catalogue_free": (None, c_void_p),
    "ifig_catalogue_find": (c_int, c_void_p, c_char_p, POINTER(c_void_p), POINTER(_Error)),
    "ifig_lamp_create": (c_int, c_int, POINTER(c_void_p), POINTER(_Error)),
    "ifig_lamp_free": (None, c_void_p),
    "ifig_figure_create": (c_int, POINTER(Scene), POINTER(FigureOptions), POINTER(c_void_p),
                           POINTER(_Error)),
    "ifig_figure_render": (c_int, c_void_p, c_int, c_uint32, c_uint32, c_void_p, POINTER(_Error)),
    "ifig_figure_free": (None, c_void_p),
    "ifig_version": (c_char_p,),
}


class Optics:
    """The library, with its catalogue and a daylight lamp. May be used by many threads."""

    def __init__(self, library=None):
        self._library = ctypes.CDLL(library or ctypes.util.find_library("interfig-optics")
                                    or "libinterfig-optics.so.0")
        for name, (result, *arguments) in _SIGNATURES.items():
            function = getattr(self._library, name)
            function.restype, function.argtypes = result, arguments
        self._catalogue, self._lamp = c_void_p(), c_void_p()
        self._call("ifig_catalogue_create", byref(self._catalogue))
        self._call("ifig_lamp_create", 0, byref(self._lamp))

    def close(self):
        self._library.ifig_lamp_free(self._lamp)
        self._library.ifig_catalogue_free(self._catalogue)
        self._lamp, self._catalogue = c_void_p(), c_void_p()

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.close()

    def _call(self, name, *arguments):
        error = _Error()
        status = getattr(self._library, name)(*arguments, byref(error))
        if status != 0:
            raise Error(status, error.message.decode("utf-8"))

    @property
    def version(self):
        return self._library.ifig_version().decode("ascii")

    def figure(self, name, pixels=1024, thickness_mm=3.0, tilt_deg=0.0, tilt_azimuth_deg=0.0,
               stage_deg=0.0):
        """Red, green, blue bytes of a figure, pixels x pixels, top row first."""
        orientation = Orientation(size=ctypes.sizeof(Orientation), tilt_deg=tilt_deg,
                                  tilt_azimuth_deg=tilt_azimuth_deg, stage_deg=stage_deg)
        layer = Layer(size=ctypes.sizeof(Layer), orientation=orientation, thickness_mm=thickness_mm)
        species = c_void_p()
        self._call("ifig_catalogue_find", self._catalogue, name.encode("utf-8"), byref(species))
        layer.species = species
        instrument = Instrument(size=ctypes.sizeof(Instrument), sphere_index=1.5, aperture=0.85,
                                immersion_index=1.0, polariser=Polar(0, 0), analyser=Polar(0, 90))
        scene = Scene(size=ctypes.sizeof(Scene), layers=ctypes.pointer(layer), layer_count=1,
                      instrument=instrument, lamp=self._lamp)
        options = FigureOptions(size=ctypes.sizeof(FigureOptions), pixels=pixels)
        figure = c_void_p()
        self._call("ifig_figure_create", byref(scene), byref(options), byref(figure))
        try:
            rgb = ctypes.create_string_buffer(3 * pixels * pixels)
            self._call("ifig_figure_render", figure, 0, 0, pixels, rgb)
            return rgb.raw
        finally:
            self._library.ifig_figure_free(figure)
