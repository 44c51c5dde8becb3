/* SPDX-License-Identifier: MIT */
/* Labels find places that are free. */
#include "page_test.h"

enum { COUNT = 12 };

static void crowd(IfigLabel *labels)
{
    for (int i = 0; i < COUNT; i++) {
        labels[i] = (IfigLabel){.at = {50.0 + 1.5 * (i % 4), 40.0 + 1.5 * (i / 4)},
                                .radius_mm = 0.7,
                                .text = "melatope",
                                .style = ifig_text_style(7.0, IFIG_INK_TEXT)};
    }
}

START_TEST(crowded_labels_touch_neither_each_other_nor_a_mark_nor_an_obstacle)
{
    IfigCanvas *const canvas = open_canvas(IFIG_PAGE_PDF);
    IfigLabel labels[COUNT];
    const IfigBox obstacle = {20.0, 30.0, 25.0, 4.0};
    const IfigBox bounds = ifig_canvas_box(canvas);
    crowd(labels);
    ck_assert_uint_eq(ifig_labels_place(canvas, labels, COUNT, bounds, &obstacle, 1), 0);
    for (int i = 0; i < COUNT; i++) {
        const IfigBox box = labels[i].box;
        ck_assert(!ifig_box_overlap(box, obstacle));
        ck_assert(box.x >= 0.0 && box.y >= 0.0 && box.x + box.width <= bounds.width &&
                  box.y + box.height <= bounds.height);
        for (int j = 0; j < COUNT; j++) {
            const IfigBox mark = {labels[j].at.x - 0.7, labels[j].at.y - 0.7, 1.4, 1.4};
            ck_assert(!ifig_box_overlap(box, mark));
            ck_assert(i == j || !ifig_box_overlap(box, labels[j].box));
        }
    }
    ifig_canvas_discard(canvas);
}
END_TEST

START_TEST(labels_without_room_are_counted_and_left_out)
{
    IfigCanvas *const canvas = open_canvas(IFIG_PAGE_PDF);
    IfigLabel labels[COUNT];
    crowd(labels);
    const size_t without_room =
        ifig_labels_place(canvas, labels, COUNT, (IfigBox){40.0, 38.0, 20.0, 8.0}, NULL, 0);
    size_t left_out = 0;
    for (int i = 0; i < COUNT; i++) {
        left_out += !labels[i].is_placed;
    }
    ck_assert_uint_eq(without_room, left_out);
    ck_assert_uint_gt(without_room, 6); /* 160 square millimetres hold three or four words */
    ifig_canvas_discard(canvas);
}
END_TEST

START_TEST(boxes_that_only_touch_do_not_overlap)
{
    const IfigBox one = {0.0, 0.0, 10.0, 10.0};
    ck_assert(!ifig_box_overlap(one, (IfigBox){10.0, 0.0, 5.0, 5.0}));
    ck_assert(ifig_box_overlap(one, (IfigBox){9.9, 9.9, 5.0, 5.0}));
    ck_assert(ifig_box_overlap(one, ifig_box_grown((IfigBox){10.5, 0.0, 5.0, 5.0}, 1.0)));
}
END_TEST

int main(void)
{
    TCase *const facts = tcase_create("labels");
    tcase_add_test(facts, crowded_labels_touch_neither_each_other_nor_a_mark_nor_an_obstacle);
    tcase_add_test(facts, labels_without_room_are_counted_and_left_out);
    tcase_add_test(facts, boxes_that_only_touch_do_not_overlap);
    return run_case(facts, "page labels");
}
