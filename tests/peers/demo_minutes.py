"""Decorating minutes a piece, learned from a shop's logs: an independent fit of the hierarchical model.

It reads orders.csv, hours.csv, designs.csv and shop.toml of a shop folder, forms the observations (whole groups
of orders, and pieces timed apart), samples the posterior by NUTS with a general library for Bayesian models, and
writes the readings and the posterior summaries as JSON, so that another implementation can be held against both.

    python demo_minutes.py SHOP_FOLDER OUT.json

Written and run with Python 3.11.7, numpyro 0.22.0, jax and jaxlib 0.10.2, numpy 2.4.6, on the CPU, in 64-bit floats:

    pip install numpyro==0.22.0 jax==0.10.2 jaxlib==0.10.2 numpy==2.4.6

Every design that a done order names must have a card guess (`minutes_each`); a shop with `[columns]` is refused.
"""

import csv, json, platform, re, sys, tomllib
from collections import defaultdict
from datetime import datetime
from importlib.metadata import version
from pathlib import Path
from statistics import mean, median

import jax
import jax.numpy as jnp
import numpy as np
import numpyro
import numpyro.distributions as dist
from numpyro.diagnostics import effective_sample_size, split_gelman_rubin
from numpyro.infer import MCMC, NUTS

SEED, CHAINS, WARM_UP, DRAWS, TARGET_ACCEPT = 20261031, 4, 2_000, 10_000, 0.95
STAGES = dict(plan="orders", shopping="weight", mix="weight", roll="pieces", bake="pieces", icing="weight", tint="colours",
              decorate="minutes", dry="unattended", pack="pieces", deliver="delivery", clean="pieces", admin="orders")


def plain(text):
    return " ".join(text.split()).casefold()


def rows(path):
    """Rows as dictionaries; headings lose case, spaces and underscores."""
    with open(path, newline="", encoding="utf-8-sig") as file:
        for row in csv.DictReader(file):
            yield {re.sub(r"[\s_]", "", k).lower().replace("colors", "colours"): (v or "").strip()
                   for k, v in row.items() if k}


def count(text):
    number, dozen = re.fullmatch(r"([\d.]+)\s*(dozens?)?", text.lower()).groups()
    return float(number) * (12 if dozen else 1)


def spent(row):
    if row["minutes"]:
        return float(row["minutes"])
    start, end = (datetime.strptime(row[k], "%H:%M") for k in ("start", "end"))
    return (end - start).total_seconds() / 60 % (24 * 60)  # modulo a day: past midnight


class Shop:
    def __init__(self, folder):
        settings = tomllib.loads((folder / "shop.toml").read_text(encoding="utf-8"))
        if "columns" in settings:
            sys.exit("[columns] is not read here")
        self.stages = STAGES | {plain(k): v for k, v in settings.get("stages", {}).items()}

        self.card, self.tier, self.names = {}, {}, {}
        for row in rows(folder / "designs.csv"):
            design = row["design"]
            self.tier[design], self.card[design] = row["tier"], row["minuteseach"]
            for name in [design, *row["alsocalled"].split(";")]:
                if name.strip():
                    self.names[plain(name)] = design

        self.date, self.status, self.logged_colours = {}, {}, {}
        self.pieces = defaultdict(lambda: defaultdict(float))
        for row in rows(folder / "orders.csv"):
            order = row["order"]
            self.status[order] = row["status"].lower() or self.status.get(order, "done")
            self.date[order] = row["date"] or self.date.get(order)
            if row["colours"]:
                self.logged_colours[order] = max(float(row["colours"]), self.logged_colours.get(order, 0))
            if row["kind"].lower() in ("", "cookie"):
                self.pieces[order][self.names[plain(row["design"])]] += count(row["quantity"])
        self.mean_colours = mean(c for o, c in self.logged_colours.items() if self.done(o))

        self.hours = [dict(date=row["date"], minutes=spent(row), stage=plain(row["stage"]), orders=self.named(row["order"]),
                           design=self.names[plain(row["design"])] if row["design"] else None,
                           pieces=count(row["pieces"]) if row["pieces"] else None)
                      for row in rows(folder / "hours.csv")]

    def done(self, order):
        return self.status[order] == "done"

    def colours(self, order):
        return self.logged_colours.get(order, self.mean_colours)

    def named(self, text):
        """The orders an entry names: ids joined by +, or every done order of a hand-over date."""
        if re.fullmatch(r"\d{4}-\d\d-\d\d", text) and text not in self.status:
            return [o for o in self.status if self.done(o) and self.date[o] == text]
        orders = [part.strip() for part in text.split("+") if part.strip()]
        assert all(o in self.status for o in orders), f"unknown order in {text!r}"
        return orders


def linked(entries):
    """Connected components of orders over the entries that name several."""
    group = {}
    for entry in entries:
        merged = set(entry["orders"]).union(*(group.get(o, ()) for o in entry["orders"]))
        for order in merged:
            group[order] = merged
    return sorted({tuple(sorted(g)) for g in group.values()})


def groups(shop, covers, entries, pieces):
    """One observation for each component: minutes, orders, colours and pieces summed."""
    found = []
    for orders in linked(entries):
        minutes = sum(e["minutes"] for e in entries if e["orders"][0] in orders)
        mine = [pieces.get(o, {}) for o in orders]
        total = {d: sum(lines.get(d, 0) for lines in mine) for d in sorted(set().union(*mine))}
        total = {d: n for d, n in total.items() if n > 0}
        if all(map(shop.done, orders)) and minutes > 0 and total:
            found.append(dict(orders=list(orders), covers=covers, minutes=minutes, orders_count=len(orders),
                              colours=sum(map(shop.colours, orders)), pieces=total))
    return found


def observations(shop):
    decorating = [e for e in shop.hours if e["stage"] and shop.stages[e["stage"]] == "minutes"]
    by_order = [e for e in decorating if e["orders"]]
    assert not any(e["design"] and len(e["orders"]) > 1 for e in by_order), "a design is timed in one order or none"
    stages, naming = defaultdict(set), defaultdict(set)
    for e, order in ((e, order) for e in by_order for order in e["orders"]):
        stages[order].add(e["stage"])
        naming[order, e["design"]].add(e["stage"])

    apart, general = defaultdict(list), []
    for e in by_order:
        order = e["orders"][0]
        alone = e["design"] and shop.done(order) and naming[order, e["design"]] == stages[order]
        (apart[order, e["design"]] if alone else general).append(e)

    # what was timed leaves the group, unless nothing would remain for the order's other minutes
    left = {order: dict(lines) for order, lines in shop.pieces.items()}
    timed = []
    for order in sorted({o for o, _ in apart}):
        mine = {d: entries for (o, d), entries in apart.items() if o == order}
        made = {}
        for design, entries in mine.items():
            blank = any(e["pieces"] is None for e in entries)
            made[design] = shop.pieces[order][design] if blank else sum(e["pieces"] for e in entries)
        rest = {d: n - min(n, made.get(d, 0)) for d, n in shop.pieces[order].items()}
        if not any(rest.values()) and any(order in e["orders"] for e in general):
            general += [e for entries in mine.values() for e in entries]
            continue
        left[order] = rest
        timed += [dict(design=d, pieces=made[d], minutes=sum(e["minutes"] for e in entries), order=order)
                  for d, entries in sorted(mine.items())]
    practice = defaultdict(list)
    for e in decorating:
        if e["design"] and not e["orders"] and e["pieces"]:
            practice[e["date"], e["design"]].append((e["pieces"], e["minutes"]))
    timed += [dict(design=d, pieces=sum(p for p, _ in made), minutes=sum(m for _, m in made), date=day)
              for (day, d), made in sorted(practice.items())]

    whole = groups(shop, "whole", [e for e in shop.hours if not e["stage"] and e["orders"]], shop.pieces)
    whole = [g for g in whole if not any(o in stages for o in g["orders"])]
    return groups(shop, "decorating", general, left), whole, timed


def share_named(shop, orders, sharing):
    """The share of the orders that an entry of a stage so shared names, and of each such stage by itself."""
    of = {s: {o for e in shop.hours if e["stage"] == s for o in e["orders"]} for s, by in shop.stages.items() if by == sharing}
    return len(orders & set().union(*of.values())) / len(orders), {s: len(orders & o) / len(orders) for s, o in of.items()}


def model(data, prior):
    """All minutes are divided by the unit T. The design effects are written as tau times a standard normal."""
    s = numpyro.sample("set_up", dist.HalfNormal(prior["set_up"]))
    s2 = numpyro.sample("whole_set_up", dist.HalfNormal(prior["whole_set_up"]))
    c2 = numpyro.sample("whole_per_colour", dist.HalfNormal(prior["whole_per_colour"]))
    h = numpyro.sample("whole_per_piece", dist.HalfNormal(prior["whole_per_piece"]))
    tau = numpyro.sample("tau", dist.LogNormal(jnp.log(0.3), 0.4))
    s_noise = numpyro.sample("s", dist.LogNormal(jnp.log(0.25), 0.4))
    sigma = numpyro.deterministic("sigma", jnp.sqrt(s_noise**2 + 0.005**2))
    b = numpyro.sample("b_tier", dist.Normal(0, 0.4).expand([data["tiers"]]).to_event(1))
    z = numpyro.sample("z", dist.Normal(0, 1).expand([len(data["card"])]).to_event(1))
    m = numpyro.deterministic("m", jnp.exp(jnp.log(data["card"]) + b[data["tier_of"]] + tau * z))

    n, n2 = data["pieces"], data["whole_pieces"]
    mu = jnp.concatenate([s * data["orders"] + n @ m,
                          s2 * data["whole_orders"] + c2 * data["whole_colours"] + h * n2.sum(1) + n2 @ m,
                          data["timed_pieces"] * m[data["timed_design"]]])
    numpyro.sample("log_y", dist.StudentT(4.0, jnp.log(mu), sigma), obs=data["log_y"])


def summary(draws):
    """Of draws shaped (chain, draw). The error of a quantile comes from the effective size of its indicator."""
    def quantile(p):
        q = np.quantile(draws, p)
        se = np.sqrt(p * (1 - p) / effective_sample_size((draws <= q).astype(float)))
        low, high = np.quantile(draws, [max(p - se, 0), min(p + se, 1)])
        return float(q), float((high - low) / 2)
    ess, sd = effective_sample_size(draws), draws.std(ddof=1)
    (q05, e05), (q50, e50), (q95, e95) = map(quantile, (0.05, 0.5, 0.95))
    return dict(mean=float(draws.mean()), mcse=float(sd / np.sqrt(ess)), sd=float(sd), q05=q05, q50=q50, q95=q95,
                mcse_q05=e05, mcse_q50=e50, mcse_q95=e95, ess=float(ess), r_hat=float(split_gelman_rubin(draws)))


def column(observed, key):
    return np.array([o[key] for o in observed], float)


def main(folder, out):
    jax.config.update("jax_enable_x64", True)
    shop = Shop(Path(folder))
    deco, whole, timed = observations(shop)
    fitted = {o for g in deco for o in g["orders"]}
    (plan, by_plan), (tint, by_tint) = share_named(shop, fitted, "orders"), share_named(shop, fitted, "colours")
    if tint < 0.5:
        sys.exit(f"only {tint:.0%} of the orders have colours logged apart: decorating would need a colour part")
    if plan < 0.5:
        print(f"NOTE: only {plan:.0%} of the orders have planning logged apart: set-up prior HalfNormal(0.15 T)")

    designs = sorted({d for o, lines in shop.pieces.items() if shop.done(o) for d in lines})
    tiers, place = sorted({shop.tier[d] for d in designs}), {d: i for i, d in enumerate(designs)}
    n, n2 = (np.array([[g["pieces"].get(d, 0) for d in designs] for g in gs], float) for gs in (deco, whole))
    unit, whole_unit = (median(g["minutes"] / g["orders_count"] for g in gs) for gs in (deco, whole))
    colours_an_order = column(whole, "colours").sum() / column(whole, "orders_count").sum()
    minutes_a_piece = column(whole, "minutes").sum() / n2.sum()
    prior = dict(set_up=0.025 if plan >= 0.5 else 0.15, whole_set_up=0.3 * whole_unit / unit,
                 whole_per_colour=0.15 * whole_unit / colours_an_order / unit, whole_per_piece=0.3 * minutes_a_piece / unit)
    data = dict(tiers=len(tiers), tier_of=np.array([tiers.index(shop.tier[d]) for d in designs]),
                card=np.array([float(shop.card[d]) for d in designs]) / unit,
                orders=column(deco, "orders_count"), pieces=n, whole_orders=column(whole, "orders_count"),
                whole_colours=column(whole, "colours"), whole_pieces=n2,
                timed_pieces=column(timed, "pieces"), timed_design=np.array([place[t["design"]] for t in timed]),
                log_y=np.log(column(deco + whole + timed, "minutes") / unit))

    mcmc = MCMC(NUTS(model, target_accept_prob=TARGET_ACCEPT), num_warmup=WARM_UP, num_samples=DRAWS,
                num_chains=CHAINS, chain_method="sequential", progress_bar=False)
    mcmc.run(jax.random.PRNGKey(SEED), data, prior)
    draws = {k: np.asarray(v) for k, v in mcmc.get_samples(group_by_chain=True).items()}
    divergences = int(np.asarray(mcmc.get_extra_fields()["diverging"]).sum())

    parts = {k: summary(draws[k] * unit) for k in ("set_up", "whole_set_up", "whole_per_colour", "whole_per_piece")}
    parts |= {k: summary(draws[k]) for k in ("sigma", "tau")}
    offsets = {t: summary(draws["b_tier"][..., i]) for i, t in enumerate(tiers)}
    learned = {d: summary(draws["m"][..., i] * unit) for d, i in place.items()}
    everything = [*parts.values(), *offsets.values(), *learned.values()]
    result = dict(
        units="minutes (sigma, tau and b_tier are on the log scale)",
        library={p: version(p) for p in ("numpyro", "jax", "jaxlib", "numpy")} | dict(python=platform.python_version()),
        seed=SEED, chains=CHAINS, warm_up=WARM_UP, draws_per_chain=DRAWS, target_accept=TARGET_ACCEPT,
        divergences=divergences, worst_r_hat=max(s["r_hat"] for s in everything), least_ess=min(s["ess"] for s in everything),
        unit_minutes=unit, whole_unit_minutes=whole_unit, mean_colours_of_shop=shop.mean_colours,
        prior_scales_minutes={k: float(v * unit) for k, v in prior.items()},
        shares_of_decorating_orders=dict(orders=len(fitted), shared_by_orders=plan, shared_by_colours=tint) | by_plan | by_tint,
        designs={d: dict(tier=shop.tier[d], card=float(shop.card[d])) | learned[d] for d in designs},
        **parts, minutes_per_colour=None, b_tier=offsets, observations=dict(groups=deco + whole, timed=timed))
    Path(out).write_text(json.dumps(result, indent=1) + "\n", encoding="utf-8")

    print(f"{len(deco)} decorating groups of {len(fitted)} orders, {len(whole)} whole, {len(timed)} timed; T = {unit:g}; "
          f"divergences {divergences}, worst R-hat {result['worst_r_hat']:.5f}, least ESS {result['least_ess']:.0f}")
    for name, s in (learned | parts).items():
        print(f"{name:20}" + "".join(f"{s[k]:10.4f}" for k in ("mean", "mcse", "sd", "q05", "q50", "q95")))


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    main(*sys.argv[1:])
