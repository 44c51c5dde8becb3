/* SPDX-License-Identifier: MIT */
/** @file
 * The one attribute that marks a public function, and C's linkage for programs in C++.
 */
#ifndef INTERFIG_EXPORT_H
#define INTERFIG_EXPORT_H

/** Marks a function that the libraries export. */
#if defined(__GNUC__) || defined(__clang__)
#define IFIG_API __attribute__((visibility("default")))
#else
#define IFIG_API
#endif

#ifndef __cplusplus
/** Opens the declarations of a header, which keep C's linkage in C++. The initialisers
 *  (IFIG_SCENE_INIT, ...) need C99 or C++20. */
#define IFIG_C_BEGIN
/** Closes the declarations of a header. */
#define IFIG_C_END
#else
#define IFIG_C_BEGIN extern "C" {
#define IFIG_C_END   }
#endif

#endif
