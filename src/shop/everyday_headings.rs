//! Everyday words for the columns of each table, as spreadsheets and exports head them. They are proposed, never taken unasked.
//!
//! Only words with one meaning in their table stand here: `Amount` on an order may be a price or a line's total, and a customer's
//! `Name` is no column at all. A word that two columns share is asked about.

/// Columns with their everyday words, which are compared as headings are.
type Words = &'static [(&'static str, &'static [&'static str])];

const ORDER: &[&str] =
    &["order #", "order no", "order number", "order id", "order nr", "invoice", "invoice #", "invoice no", "invoice number"];
const DESIGN: &[&str] = &["cookie", "cookies", "item", "product", "style", "design name", "cookie design", "item name", "product name"];
const PIECES: &[&str] =
    &["qty", "count", "# cookies", "number of cookies", "no of cookies", "how many", "pcs", "# pieces", "number of pieces"];
const UNIT: &[&str] = &["units", "uom", "measure", "unit of measure"];
const INGREDIENT: &[&str] = &["ingredient", "product", "description", "article", "what", "item name", "supply"];
const THEME: &[&str] = &["occasion", "event", "event type", "holiday"];
const TIER: &[&str] = &["level", "price level", "price tier", "price group"];

/// Of `orders`.
pub(super) const ORDERS: Words = &[
    ("order", ORDER),
    (
        "date",
        &[
            "pick-up",
            "pick-up date",
            "pick-up day",
            "due",
            "due date",
            "date due",
            "delivery date",
            "event date",
            "hand-over",
            "hand-over date",
            "collection date",
            "date needed",
            "needed by",
        ],
    ),
    ("kind", &["type", "row type", "line type", "charge type"]),
    ("design", DESIGN),
    ("quantity", PIECES),
    ("quantity", &["pieces"]),
    ("price", &["unit price", "price each", "each", "price per cookie", "price per piece", "per cookie", "cookie price"]),
    ("made", &["baked", "cookies baked", "pieces made", "pieces baked"]),
    ("colours", &["# colours", "# colors", "number of colours", "number of colors", "icing colours", "icing colors"]),
    ("payments", &["payment", "paid by", "payment method", "payment type", "how paid", "paid with"]),
    ("theme", THEME),
    ("channel", &["source", "sold at", "sales channel", "platform", "where sold"]),
    ("status", &["order status", "state"]),
];

/// Of `purchases`.
pub(super) const PURCHASES: Words = &[
    ("date", &["purchase date", "date bought", "bought", "bought on", "day", "receipt date"]),
    ("item", INGREDIENT),
    ("packs", &["qty", "quantity", "# packs", "packages", "number of packs"]),
    ("size", &["pack size", "package size", "contents", "net weight", "size of pack"]),
    ("unit", UNIT),
    ("paid", &["total", "cost", "amount paid", "price paid", "total cost", "total paid", "total price", "spent", "line total"]),
    ("shipping", &["postage", "freight", "shipping cost"]),
    ("tax", &["sales tax", "vat", "gst"]),
    ("receipt", &["receipt #", "receipt no", "receipt number", "invoice", "invoice #", "invoice no", "invoice number"]),
    ("supplier", &["store", "shop", "vendor", "seller", "bought at", "bought from", "merchant"]),
];

/// Of `hours`.
pub(super) const HOURS: Words = &[
    ("date", &["day", "work date", "worked on"]),
    ("minutes", &["mins", "min", "duration", "time spent", "minutes worked", "hours", "hrs", "hours worked", "time", "total time"]),
    ("start", &["started", "start time", "from", "begin", "time in", "clock in"]),
    ("end", &["ended", "end time", "finish", "finished", "to", "until", "stop", "time out", "clock out"]),
    ("stage", &["task", "activity", "work", "step", "what", "job", "kind of work"]),
    ("order", ORDER),
    ("design", DESIGN),
    ("pieces", PIECES),
    ("pieces", &["quantity"]),
    ("who", &["person", "worker", "helper", "done by"]),
];

/// Of `overheads`.
pub(super) const OVERHEADS: Words = &[
    ("from", &["start", "date", "since", "first day", "start date"]),
    ("to", &["end", "until", "last day", "through", "end date"]),
    ("what", &["item", "description", "expense", "cost for"]),
    ("paid", &["amount", "cost", "total", "amount paid", "price"]),
    ("shared_by", &["split by", "share by"]),
];

/// Of `counts`.
pub(super) const COUNTS: Words = &[
    ("date", &["day", "counted on", "count date"]),
    ("item", INGREDIENT),
    ("amount", &["count", "counted", "qty", "quantity", "on hand", "in stock", "left"]),
    ("unit", UNIT),
];

/// Of `designs`.
pub(super) const DESIGNS: Words = &[
    ("design", DESIGN),
    ("design", &["name"]),
    ("tier", TIER),
    ("size", &["cookie size"]),
    ("minutes_each", &["minutes", "mins each", "minutes per cookie", "minutes per piece", "time each"]),
    ("theme", THEME),
    ("also_called", &["aliases", "alias", "other names", "aka", "nicknames"]),
    ("earlier_tiers", &["old tiers", "previous tiers"]),
];

/// Of `recipes`.
pub(super) const RECIPES: Words = &[
    ("for", &["recipe", "recipe for", "used for", "used in"]),
    ("item", INGREDIENT),
    ("amount", &["qty", "quantity"]),
    ("unit", UNIT),
    ("yields", &["yield", "makes"]),
    ("extra", &["waste", "leftover", "leftovers"]),
];

/// Of `items`.
pub(super) const ITEMS: Words = &[
    ("item", INGREDIENT),
    ("item", &["name"]),
    ("class", &["type", "kind", "category"]),
    ("grams_per_cup", &["g per cup", "g/cup", "grams/cup", "cup weight"]),
    ("grams_each", &["g each", "weight each", "grams per piece", "g per piece"]),
];

/// Of `tiers`.
pub(super) const TIERS: Words = &[
    ("tier", TIER),
    ("price", &["list price", "price each", "each", "per cookie", "price per cookie", "price per piece"]),
    ("from", &["since", "start", "starts", "valid from", "effective", "date", "start date"]),
];
