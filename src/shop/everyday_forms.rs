//! Everyday forms of the words that tables and stages know.
//!
//! A form is read only where it can mean one word of its list; where it most likely means one, that one is proposed.

use crate::reading::format::word::Forms;

/// What a row of orders charges.
pub(crate) const KIND_FORMS: Forms = Forms {
    read: &[
        ("cookies", "cookie"),
        ("sets", "set"),
        ("set price", "set"),
        ("deliveries", "delivery"),
        ("delivery fee", "delivery"),
        ("delivery charge", "delivery"),
        ("shipping", "delivery"),
        ("shipping fee", "delivery"),
        ("postage", "delivery"),
        ("rush fee", "rush"),
        ("rush charge", "rush"),
        ("rush order fee", "rush"),
        ("discounts", "discount"),
        ("coupon", "discount"),
        ("refunds", "refund"),
        ("refunded", "refund"),
        ("tips", "tip"),
        ("gratuity", "tip"),
        ("taxes", "tax"),
        ("sales tax", "tax"),
        ("vat", "tax"),
        ("kept deposit", "deposit kept"),
        ("deposit retained", "deposit kept"),
        ("retained deposit", "deposit kept"),
        ("deposit forfeited", "deposit kept"),
        ("forfeited deposit", "deposit kept"),
    ],
    proposed: &[
        ("biscuit", "cookie"),
        ("biscuits", "cookie"),
        ("product", "cookie"),
        ("express", "rush"),
        ("bundle", "set"),
        ("package", "set"),
    ],
};

/// What became of an order. Whatever is neither a quote nor cancelled is an order that stands, so what says only that it was paid or
/// handed over is done.
pub(crate) const STATUS_FORMS: Forms = Forms {
    read: &[
        ("complete", "done"),
        ("completed", "done"),
        ("collected", "done"),
        ("delivered", "done"),
        ("finished", "done"),
        ("fulfilled", "done"),
        ("handed over", "done"),
        ("paid", "done"),
        ("paid in full", "done"),
        ("pick-up", "done"),
        ("picked up", "done"),
        ("shipped", "done"),
        ("quote", "quoted"),
        ("quotation", "quoted"),
        ("estimate", "quoted"),
        ("canceled", "cancelled"),
        ("cancel", "cancelled"),
    ],
    // An order refunded or not fetched may have been made: neither has a likely meaning.
    proposed: &[
        ("confirmed", "done"),
        ("booked", "done"),
        ("closed", "done"),
        ("sent", "done"),
        ("inquiry", "quoted"),
        ("enquiry", "quoted"),
        ("hold", "quoted"),
        ("on hold", "quoted"),
        ("tentative", "quoted"),
        ("cancellation", "cancelled"),
        ("cancels", "cancelled"),
        ("declined", "cancelled"),
        ("void", "cancelled"),
        ("voided", "cancelled"),
    ],
};

/// What an overhead is shared by.
pub(crate) const BASE_FORMS: Forms = Forms {
    read: &[("hour", "hours"), ("piece", "pieces"), ("cookie", "pieces"), ("cookies", "pieces"), ("order", "orders")],
    proposed: &[("time", "hours"), ("minutes", "hours"), ("sales", "revenue"), ("income", "revenue"), ("turnover", "revenue")],
};

/// Sizes of a cookie.
pub(crate) const SIZE_FORMS: Forms = Forms {
    read: &[("minis", "mini"), ("standard", "regular"), ("reg", "regular"), ("normal", "regular"), ("l", "large"), ("lg", "large")],
    proposed: &[("small", "mini"), ("s", "mini"), ("medium", "regular"), ("m", "regular"), ("big", "large"), ("xl", "large")],
};

/// Classes of an item.
pub(crate) const CLASS_FORMS: Forms = Forms {
    read: &[("ingredients", "ingredient"), ("packaging material", "packaging"), ("packaging materials", "packaging")],
    proposed: &[("packing", "packaging"), ("package", "packaging"), ("food", "ingredient")],
};

/// Stages of work, as far as the shop has them.
pub(crate) const STAGE_FORMS: Forms = Forms {
    read: &[
        ("planning", "plan"),
        ("sketching", "plan"),
        ("shop", "shopping"),
        ("groceries", "shopping"),
        ("grocery shopping", "shopping"),
        ("supply run", "shopping"),
        ("mixing", "mix"),
        ("mix dough", "mix"),
        ("mixing dough", "mix"),
        ("make dough", "mix"),
        ("making dough", "mix"),
        ("rolling", "roll"),
        ("roll out", "roll"),
        ("rolling out", "roll"),
        ("cutting", "roll"),
        ("cutting out", "roll"),
        ("roll and cut", "roll"),
        ("rolling and cutting", "roll"),
        ("baking", "bake"),
        ("make icing", "icing"),
        ("making icing", "icing"),
        ("mixing icing", "icing"),
        ("make royal icing", "icing"),
        ("making royal icing", "icing"),
        ("tinting", "tint"),
        ("tinting icing", "tint"),
        ("colouring", "tint"),
        ("coloring", "tint"),
        ("mixing colours", "tint"),
        ("mixing colors", "tint"),
        ("deco", "decorate"),
        ("decorating", "decorate"),
        ("decoration", "decorate"),
        ("flooding", "decorate"),
        ("outlining", "decorate"),
        ("detailing", "decorate"),
        ("airbrush", "decorate"),
        ("airbrushing", "decorate"),
        ("hand painting", "decorate"),
        ("drying", "dry"),
        ("drying time", "dry"),
        ("packing", "pack"),
        ("packaging", "pack"),
        ("boxing", "pack"),
        ("bagging", "pack"),
        ("heat sealing", "pack"),
        ("delivery", "deliver"),
        ("delivering", "deliver"),
        ("drop-off", "deliver"),
        ("cleaning", "clean"),
        ("clean up", "clean"),
        ("cleaning up", "clean"),
        ("washing up", "clean"),
        ("dishes", "clean"),
        ("administration", "admin"),
        ("paperwork", "admin"),
        ("bookkeeping", "admin"),
        ("email", "admin"),
        ("emails", "admin"),
        ("invoicing", "admin"),
    ],
    proposed: &[
        ("design", "plan"),
        ("designing", "plan"),
        ("sketch", "plan"),
        ("consultation", "plan"),
        ("errands", "shopping"),
        ("dough", "mix"),
        ("cut", "roll"),
        ("oven", "bake"),
        ("royal icing", "icing"),
        ("icing cookies", "decorate"),
        ("flood", "decorate"),
        ("outline", "decorate"),
        ("piping", "decorate"),
        ("pipe", "decorate"),
        ("painting", "decorate"),
        ("detail", "decorate"),
        ("details", "decorate"),
        ("wrapping", "pack"),
        ("sealing", "pack"),
        ("pick-up", "deliver"),
        ("messages", "admin"),
        ("photos", "admin"),
        ("social media", "admin"),
        ("marketing", "admin"),
        ("website", "admin"),
    ],
};

#[cfg(test)]
mod tests {
    use super::super::settings::DEFAULT_STAGES;
    use super::super::specification as spec;
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_form_stands_for_one_word_of_its_list() {
        let stages: Vec<&str> = DEFAULT_STAGES.iter().map(|(stage, _)| *stage).collect();
        for (words, forms) in [
            (spec::KINDS, KIND_FORMS),
            (spec::STATUSES, STATUS_FORMS),
            (spec::OVERHEAD_BASES, BASE_FORMS),
            (spec::SIZES, SIZE_FORMS),
            (spec::CLASSES, CLASS_FORMS),
            (&stages, STAGE_FORMS),
        ] {
            let mut met = BTreeSet::new();
            for (form, word) in forms.read.iter().chain(forms.proposed) {
                assert!(words.contains(word), "{form} = {word}");
                assert!(met.insert(form) && !words.contains(form), "{form} has two meanings");
            }
        }
    }
}
