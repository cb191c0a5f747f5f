//! Everyday words for the columns of each table, as spreadsheets and exports head them. They are proposed, never taken unasked.
//!
//! A word stands under each column of its table that it may mean: one that two columns share is asked about, unless the cells tell. A
//! customer's `Name` is no column at all.

/// Columns with their everyday words, which are compared as headings are.
type Words = &'static [(&'static str, &'static [&'static str])];

const ORDER: &[&str] = &[
    "orders",
    "ord",
    "order #",
    "ord #",
    "order no",
    "ord no",
    "order number",
    "order id",
    "order nr",
    "invoice",
    "invoice #",
    "invoice no",
    "invoice number",
];
const DESIGN: &[&str] = &[
    "cookie",
    "cookies",
    "item",
    "product",
    "style",
    "design name",
    "cookie design",
    "item name",
    "product name",
    "which",
    "which cookie",
    "which design",
];
const PIECES: &[&str] = &[
    "qty",
    "count",
    "# cookies",
    "number of cookies",
    "no of cookies",
    "how many",
    "how many cookies",
    "cookie count",
    "pcs",
    "# pieces",
    "number of pieces",
    "no of pieces",
];
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
            "when",
            "ready by",
            "party date",
            "picked up",
        ],
    ),
    ("kind", &["type", "row type", "line type", "charge type"]),
    ("design", DESIGN),
    ("quantity", PIECES),
    ("quantity", &["pieces"]),
    (
        "price",
        &[
            "unit price",
            "price each",
            "price ea",
            "each",
            "ea",
            "$ each",
            "$ ea",
            "$/each",
            "$/ea",
            "price per cookie",
            "price per piece",
            "per cookie",
            "per piece",
            "$ per cookie",
            "$/cookie",
            "price/cookie",
            "cookie price",
            "rate",
        ],
    ),
    ("made", &["baked", "cookies baked", "pieces made", "pieces baked"]),
    ("colours", &["# colours", "# colors", "number of colours", "number of colors", "icing colours", "icing colors"]),
    (
        "payments",
        &[
            "payment",
            "paid by",
            "payment method",
            "method of payment",
            "form of payment",
            "payment type",
            "how paid",
            "how they paid",
            "paid how",
            "paid with",
            "paid via",
        ],
    ),
    ("theme", THEME),
    (
        "channel",
        &[
            "source",
            "sold at",
            "sold via",
            "sales channel",
            "platform",
            "where sold",
            "found me",
            "found us",
            "how they found me",
            "how found",
        ],
    ),
    ("status", &["order status", "state"]),
];

/// Of `purchases`.
pub(super) const PURCHASES: Words = &[
    ("date", &["purchase date", "date bought", "bought", "bought on", "when", "when bought", "day", "receipt date"]),
    ("item", INGREDIENT),
    ("packs", &["qty", "quantity", "how many", "#", "count", "# packs", "packages", "number of packs", "packs bought"]),
    ("size", &["pack size", "package size", "contents", "net weight", "size of pack"]),
    ("unit", UNIT),
    (
        "paid",
        &[
            "total",
            "cost",
            "price",
            "amount",
            "amount paid",
            "price paid",
            "i paid",
            "total cost",
            "total paid",
            "total price",
            "spent",
            "line total",
        ],
    ),
    ("shipping", &["ship", "postage", "freight", "shipping cost", "shipping & handling", "delivery", "delivery fee"]),
    ("tax", &["sales tax", "vat", "gst"]),
    ("receipt", &["#", "receipt #", "receipt no", "receipt number", "invoice", "invoice #", "invoice no", "invoice number"]),
    ("supplier", &["store", "shop", "vendor", "seller", "where", "from", "where bought", "bought at", "bought from", "merchant"]),
];

/// Of `hours`.
pub(super) const HOURS: Words = &[
    ("date", &["day", "work date", "worked on", "when"]),
    (
        "minutes",
        &[
            "mins",
            "min",
            "duration",
            "how long",
            "length",
            "elapsed",
            "time spent",
            "time taken",
            "minutes worked",
            "hours",
            "hrs",
            "hours worked",
            "time",
            "total time",
        ],
    ),
    ("start", &["started", "start time", "from", "begin", "time in", "clock in"]),
    ("end", &["ended", "end time", "finish", "finished", "to", "until", "stop", "time out", "clock out"]),
    ("stage", &["task", "activity", "work", "step", "what", "doing", "what i did", "job", "kind of work", "type of work"]),
    ("order", ORDER),
    ("order", &["which", "which order", "for order"]),
    ("design", DESIGN),
    ("pieces", PIECES),
    ("pieces", &["quantity"]),
    ("who", &["person", "worker", "helper", "done by"]),
];

/// Of `overheads`.
pub(super) const OVERHEADS: Words = &[
    ("from", &["start", "date", "when", "since", "first day", "start date"]),
    ("to", &["end", "until", "last day", "through", "end date"]),
    ("what", &["item", "description", "expense", "cost for", "for", "for what"]),
    ("paid", &["amount", "cost", "total", "amount paid", "price"]),
    ("shared_by", &["split by", "share by"]),
];

/// Of `counts`.
pub(super) const COUNTS: Words = &[
    ("date", &["day", "when", "counted on", "count date"]),
    ("item", INGREDIENT),
    ("amount", &["count", "counted", "qty", "quantity", "how many", "how much", "on hand", "in stock", "left"]),
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
