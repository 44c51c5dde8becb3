/* SPDX-License-Identifier: MIT */
/* What cairo's PDF lacks (ISO 32000-1:2008): the document's language (14.9.2), its title in the
 * window's bar and no scaling in print (12.2), one root element over the structure, and alternative
 * text on figures (14.9.3); and the page's own text entries in the document information. */
#include "canvas.h"

#include <qpdf/qpdf-c.h>
#include <stdlib.h>
#include <string.h>

static void set_catalogue(qpdf_data pdf, qpdf_oh root)
{
    qpdf_oh_replace_key(pdf, root, "/Lang", qpdf_oh_new_string(pdf, "en-GB"));
    qpdf_oh_replace_key(pdf, root, "/ViewerPreferences",
                        qpdf_oh_parse(pdf, "<< /DisplayDocTitle true /PrintScaling /None >>"));
    qpdf_oh_replace_key(pdf, root, "/MarkInfo", qpdf_oh_parse(pdf, "<< /Marked true >>"));
}

/* A keyword as a PDF name: letters and digits alone. Returns 0 where nothing is left. */
static int info_key(const char *keyword, char key[84])
{
    size_t length = 0;
    key[length++] = '/';
    for (; *keyword != '\0' && length < 80; keyword++) {
        const char letter = *keyword;
        if ((letter >= 'a' && letter <= 'z') || (letter >= 'A' && letter <= 'Z') ||
            (letter >= '0' && letter <= '9')) {
            key[length++] = letter;
        }
    }
    key[length] = '\0';
    return length > 1;
}

static void set_information(qpdf_data pdf, const IfigSheetWords *words)
{
    qpdf_oh const info = qpdf_oh_get_key(pdf, qpdf_get_trailer(pdf), "/Info");
    for (size_t i = 0; i < words->text_count && qpdf_oh_is_dictionary(pdf, info); i++) {
        char key[84];
        if (info_key(words->text[i].keyword, key) && strcmp(key, "/Title") != 0) {
            qpdf_oh_replace_key(pdf, info, key,
                                qpdf_oh_new_unicode_string(pdf, words->text[i].text));
        }
    }
}

typedef struct Alternatives {
    const IfigSheetWords *words;
    size_t next;
} Alternatives;

/* Elements stand in the order in which they were begun, and so do the words. */
static void add_alternatives(qpdf_data pdf, qpdf_oh element, Alternatives *from, int depth)
{
    if (depth > IFIG_TAGS_MAX + 4) {
        return;
    }
    if (qpdf_oh_is_array(pdf, element)) {
        const int count = qpdf_oh_get_array_n_items(pdf, element);
        for (int i = 0; i < count; i++) {
            add_alternatives(pdf, qpdf_oh_get_array_item(pdf, element, i), from, depth + 1);
        }
    } else if (qpdf_oh_is_dictionary(pdf, element) && qpdf_oh_has_key(pdf, element, "/S")) {
        if (qpdf_oh_is_name_and_equals(pdf, qpdf_oh_get_key(pdf, element, "/S"), "/Figure") &&
            from->next < from->words->alternative_count) {
            qpdf_oh_replace_key(
                pdf, element, "/Alt",
                qpdf_oh_new_unicode_string(pdf, from->words->alternatives[from->next++]));
        }
        add_alternatives(pdf, qpdf_oh_get_key(pdf, element, "/K"), from, depth + 1);
    }
}

/* One Document over all (14.8.4.2), into which cairo's elements move. */
static void wrap_structure(qpdf_data pdf, qpdf_oh tree)
{
    qpdf_oh const elements = qpdf_oh_get_key(pdf, tree, "/K");
    qpdf_oh const document =
        qpdf_make_indirect_object(pdf, qpdf_oh_parse(pdf, "<< /Type /StructElem /S /Document >>"));
    qpdf_oh_replace_key(pdf, document, "/P", tree);
    qpdf_oh_replace_key(pdf, document, "/K", elements);
    const int count =
        qpdf_oh_is_array(pdf, elements) ? qpdf_oh_get_array_n_items(pdf, elements) : 0;
    for (int i = 0; i < count; i++) {
        qpdf_oh_replace_key(pdf, qpdf_oh_get_array_item(pdf, elements, i), "/P", document);
    }
    if (qpdf_oh_is_dictionary(pdf, elements)) {
        qpdf_oh_replace_key(pdf, elements, "/P", document);
    }
    qpdf_oh_replace_key(pdf, tree, "/K", document);
}

static void change(qpdf_data pdf, const IfigSheetWords *words)
{
    qpdf_oh const root = qpdf_get_root(pdf);
    set_catalogue(pdf, root);
    set_information(pdf, words);
    qpdf_oh const tree = qpdf_oh_get_key(pdf, root, "/StructTreeRoot");
    if (qpdf_oh_is_dictionary(pdf, tree)) {
        Alternatives from = {words, 0};
        add_alternatives(pdf, qpdf_oh_get_key(pdf, tree, "/K"), &from, 0);
        wrap_structure(pdf, tree);
    }
}

static int write_memory(qpdf_data pdf)
{
    if (qpdf_init_write_memory(pdf) & QPDF_ERRORS) {
        return 0;
    }
    qpdf_set_deterministic_ID(pdf, QPDF_TRUE);
    qpdf_set_object_stream_mode(pdf, qpdf_o_disable);
    qpdf_set_compress_streams(pdf, QPDF_TRUE);
    return (qpdf_write(pdf) & QPDF_ERRORS) == 0;
}

IfigStatus ifig_pdf_finish(const IfigBytes *drawn, const IfigSheetWords *words, IfigBytes *finished,
                           IfigError *error)
{
    qpdf_data pdf = qpdf_init();
    IfigStatus status = IFIG_OK;
    qpdf_silence_errors(pdf);
    qpdf_set_suppress_warnings(pdf, QPDF_TRUE);
    const int is_read =
        (qpdf_read_memory(pdf, "page.pdf", (const char *)drawn->at, drawn->count, NULL) &
         QPDF_ERRORS) == 0;
    if (is_read) {
        change(pdf, words);
    }
    if (is_read && !qpdf_has_error(pdf) && write_memory(pdf)) {
        ifig_bytes_add(finished, qpdf_get_buffer(pdf), qpdf_get_buffer_length(pdf));
    } else {
        status =
            ifig_fail(error, IFIG_ERROR_IO, "cannot finish the PDF: qpdf says: %s",
                      qpdf_has_error(pdf) ? qpdf_get_error_message_detail(pdf, qpdf_get_error(pdf))
                                          : "it could not be read or written");
    }
    qpdf_cleanup(&pdf);
    return status;
}
