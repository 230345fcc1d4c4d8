"""Addresses of orders, picks, shipments, papers and the search."""

from __future__ import annotations

from django.urls import path

from inventory.views import answers, customers, one_offs, order_acts, orders, picking, shipping

order_urls = [
    path("orders/", orders.order_list, name="order-list"),
    path("orders/new/", orders.order_new, name="order-new"),
    path("orders/take/", orders.order_take, name="order-take"),
    path("orders/put/", orders.order_put, name="order-put"),
    path("orders/from-paper/", order_acts.paper_order_new, name="paper-order-new"),
    path("orders/from-paper/enter/", order_acts.paper_order_enter, name="paper-order-enter"),
    path("orders/<slug:number>/", orders.order_detail, name="order-detail"),
    path("orders/<slug:number>/size/", orders.order_size, name="order-size"),
    path("orders/<slug:number>/size/<int:ordinal>/", orders.order_size, name="order-line-size"),
    path("orders/<slug:number>/keep/", orders.order_keep, name="order-keep"),
    path("orders/<slug:number>/loose/", orders.order_loose, name="order-loose"),
    path("orders/<slug:number>/lines/<int:ordinal>/drop/", orders.order_drop_line, name="order-drop-line"),
    path("orders/<slug:number>/confirm/", orders.order_confirm, name="order-confirm"),
    path("orders/<slug:number>/promise/", orders.order_promise, name="order-promise"),
    path("orders/<slug:number>/cancel/", order_acts.order_cancel, name="order-cancel"),
    path("orders/<slug:number>/one-off/", one_offs.order_one_off, name="order-one-off"),
    path("orders/<slug:number>/one-off/sign/", one_offs.order_one_off_sign, name="order-one-off-sign"),
    path("orders/<slug:number>/answer/", answers.order_answer, name="order-answer"),
    path("orders/<slug:number>/answer/<int:ordinal>/", answers.order_answer, name="order-answer-line"),
    path("orders/<slug:number>/ship/", shipping.order_ship, name="order-ship"),
    path("orders/<slug:number>/send/", shipping.order_send, name="order-send"),
    path("orders/<slug:number>/packages/", shipping.order_packages, name="order-packages"),
    path("invoices/<int:pk>/<str:size>/", order_acts.invoice_photo, name="invoice-photo"),
    path("papers/<int:pk>/", shipping.paper_file, name="paper-file"),
    path("customers/<int:pk>/", customers.customer_detail, name="customer-detail"),
    path("customers/<int:pk>/keep/", customers.customer_keep, name="customer-keep"),
    path("find/", answers.find_page, name="find"),
]

pick_urls = [
    path("picks/", picking.pick_list, name="pick-list"),
    path("picks/<int:number>/", picking.pick_detail, name="pick-detail"),
    path("picks/<int:number>/next/", picking.pick_next, name="pick-next"),
    path("picks/<int:number>/lines/<int:pk>/", picking.pick_line, name="pick-line"),
    path("picks/<int:number>/lines/<int:pk>/take/", picking.pick_take, name="pick-take"),
    path("picks/<int:number>/lines/<int:pk>/code/", picking.pick_code, name="pick-code"),
    path("picks/<int:number>/lines/<int:pk>/undo/", picking.pick_undo, name="pick-undo"),
    path("picks/<int:number>/lines/<int:pk>/short/", picking.pick_short, name="pick-short"),
    path("picks/<int:number>/put-back/<int:pk>/", picking.pick_put_back, name="pick-put-back"),
    path("picks/<int:number>/print/", shipping.pick_print, name="pick-print"),
    path("picks/<int:number>/sheets/<int:sheet>/", shipping.sheet_entry, name="sheet-entry"),
    path("picks/<int:number>/sheets/<int:sheet>/enter/", shipping.sheet_enter, name="sheet-enter"),
]

urlpatterns = [*order_urls, *pick_urls]
