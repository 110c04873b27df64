//! Small networks by hand, and random ones against the rules themselves.

use super::*;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

fn rule(from: usize, to: usize, least: i64, most: i64) -> TimeRule {
    TimeRule {
        from,
        to,
        least: Some(least),
        most: Some(most),
    }
}

fn network(events: usize, rules: &[TimeRule]) -> Network {
    let mut network = Network::new(events);
    for (number, &rule) in rules.iter().enumerate() {
        network.add(number, rule).unwrap();
    }
    network
}

#[test]
fn windows_follow_from_the_rules() {
    let network = network(3, &[rule(0, 1, 10, 20), rule(1, 2, 30, 40)]);
    let windows = network.windows().unwrap();
    assert_eq!(
        windows[2],
        Window {
            earliest: Some(40),
            latest: Some(60)
        }
    );
    let minimal = network.minimal().unwrap();
    assert_eq!(minimal.most(1, 2), Some(40));
    assert_eq!(minimal.most(2, 1), Some(-30));
}

#[test]
fn an_event_that_happened_narrows_the_rest() {
    let mut network = network(
        3,
        &[rule(0, 1, 10, 20), rule(0, 2, 40, 45), rule(1, 2, 0, 25)],
    );
    network.fix(1, 18).unwrap();
    assert_eq!(
        network.windows().unwrap()[2],
        Window {
            earliest: Some(40),
            latest: Some(43)
        }
    );
    network.fix(2, 44).unwrap();
    let clash = network.windows().unwrap_err();
    assert_eq!(clash.short_by, 1);
    assert!(
        clash
            .links
            .iter()
            .any(|link| link.reason == Reason::Happened(2))
    );
}

#[test]
fn rules_that_cannot_all_be_kept_are_named() {
    let rules = [
        rule(0, 1, 10, 10),
        rule(1, 2, 5, 5),
        rule(0, 2, 0, 14),
        rule(0, 3, 0, 1),
    ];
    let clash = network(4, &rules).clash().unwrap();
    assert_eq!(clash.short_by, 1);
    let mut reasons: Vec<Reason> = clash.links.iter().map(|link| link.reason).collect();
    reasons.sort_unstable();
    assert_eq!(
        reasons,
        [Reason::Least(0), Reason::Least(1), Reason::Most(2)]
    );
}

#[test]
fn a_circle_of_exactly_nothing_is_no_clash() {
    let rules = [rule(0, 1, 10, 10), rule(1, 2, 5, 5), rule(0, 2, 15, 15)];
    assert_eq!(network(3, &rules).clash(), None);
}

#[test]
fn a_clash_away_from_the_origin_is_found() {
    let rules = [rule(1, 2, 5, 9), rule(2, 1, 1, 2)];
    assert!(network(3, &rules).clash().is_some());
}

#[test]
fn a_long_circle_stated_backwards_is_found() {
    let mut rules: Vec<TimeRule> = (1..40).map(|event| rule(event - 1, event, 2, 5)).collect();
    rules.push(rule(0, 39, 0, 77));
    rules.reverse();
    let clash = network(40, &rules).clash().unwrap();
    assert_eq!((clash.short_by, clash.links.len()), (1, 40));
    rules[0].most = Some(78);
    assert_eq!(network(40, &rules).clash(), None);
}

#[test]
fn an_unbounded_event_has_no_window() {
    let network = network(2, &[]);
    assert_eq!(
        network.windows().unwrap()[1],
        Window {
            earliest: None,
            latest: None
        }
    );
    assert_eq!(network.minimal().unwrap().most(0, 1), None);
}

#[test]
fn a_miss_is_signed_and_an_event_that_did_not_happen_breaks_nothing() {
    let network = network(3, &[rule(0, 1, 10, 20), rule(1, 2, 5, 6)]);
    assert_eq!(
        network.violations(&[Some(0), Some(23), None]),
        [Violation { rule: 0, excess: 3 }]
    );
    assert_eq!(
        network.violations(&[Some(0), Some(10), Some(11)]),
        [Violation {
            rule: 1,
            excess: -4
        }]
    );
    assert_eq!(network.violations(&[Some(0), Some(20), Some(25)]), []);
}

#[test]
fn what_cannot_be_summed_or_does_not_exist_is_refused() {
    let mut network = Network::new(2);
    assert_eq!(
        network.add(0, rule(0, 2, 0, 1)),
        Err(TimingProblem::NoSuchEvent(2))
    );
    assert_eq!(
        network.add(0, rule(0, 1, 0, LIMIT_MOST + 1)),
        Err(TimingProblem::TooLarge)
    );
    assert_eq!(network.fix(1, i64::MIN), Err(TimingProblem::TooLarge));
    assert_eq!(network.fix(7, 0), Err(TimingProblem::NoSuchEvent(7)));
}

fn rules() -> impl Strategy<Value = Vec<TimeRule>> {
    let limit = || prop::option::of(-20_i64..40);
    let one =
        (0_usize..6, 0_usize..6, limit(), limit()).prop_map(|(from, to, least, most)| TimeRule {
            from,
            to,
            least,
            most,
        });
    prop::collection::vec(one, 0..9)
}

proptest! {
    // A fixed seed and no memory of failures: equal code gives an equal result.
    #![proptest_config(ProptestConfig { rng_seed: RngSeed::Fixed(1), failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn all_earliest_and_all_latest_times_keep_every_rule(rules in rules()) {
        // Every event within a day of the origin, so that each has both ends of a window.
        let mut all = rules;
        all.extend((1..6).map(|event| rule(0, event, -500, 500)));
        let network = network(6, &all);
        if let Ok(windows) = network.windows() {
            let earliest: Vec<_> = windows.iter().map(|window| window.earliest).collect();
            let latest: Vec<_> = windows.iter().map(|window| window.latest).collect();
            prop_assert!(earliest.iter().chain(&latest).all(Option::is_some));
            prop_assert_eq!(network.violations(&earliest), []);
            prop_assert_eq!(network.violations(&latest), []);
        }
    }

    #[test]
    fn a_clash_is_a_circle_of_stated_rules_that_is_too_short(rules in rules()) {
        let network = network(6, &rules);
        if let Some(clash) = network.clash() {
            let mut sum = 0;
            for (at, link) in clash.links.iter().enumerate() {
                prop_assert_eq!(clash.links[(at + 1) % clash.links.len()].from, link.to);
                let stated = match link.reason {
                    Reason::Most(number) => {
                        let rule = rules[number];
                        (rule.from, rule.to, rule.most)
                    }
                    Reason::Least(number) => {
                        let rule = rules[number];
                        (rule.to, rule.from, rule.least.map(|least| -least))
                    }
                    Reason::Happened(_) => (0, 0, None),
                };
                prop_assert_eq!(stated, (link.from, link.to, Some(link.most)));
                sum += link.most;
            }
            prop_assert!(sum < 0);
            prop_assert_eq!(clash.short_by, -sum);
        }
    }

    #[test]
    fn rules_clash_exactly_if_a_way_back_to_the_same_event_is_too_short(rules in rules()) {
        let mut most = [[i64::MAX / 4; 6]; 6];
        for rule in &rules {
            if let Some(limit) = rule.most {
                most[rule.from][rule.to] = most[rule.from][rule.to].min(limit);
            }
            if let Some(limit) = rule.least {
                most[rule.to][rule.from] = most[rule.to][rule.from].min(-limit);
            }
        }
        // Ways of up to 64 links, by doubling.
        for _ in 0..6 {
            let before = most;
            for (from, row) in most.iter_mut().enumerate() {
                for (to, place) in row.iter_mut().enumerate() {
                    for (between, &first) in before[from].iter().enumerate() {
                        *place = (*place).min(first + before[between][to]);
                    }
                }
            }
        }
        let too_short = (0..6).any(|event| most[event][event] < 0);
        prop_assert_eq!(network(6, &rules).clash().is_some(), too_short);
    }

    #[test]
    fn no_schedule_keeps_rules_that_clash(rules in rules(), times in prop::collection::vec(-60_i64..60, 5)) {
        let network = network(6, &rules);
        let observed: Vec<_> = std::iter::once(0).chain(times).map(Some).collect();
        if network.violations(&observed).is_empty() {
            prop_assert_eq!(network.clash(), None);
        }
    }

    #[test]
    fn windows_are_a_row_and_a_column_of_the_minimal_network(rules in rules()) {
        let network = network(6, &rules);
        match (network.windows(), network.minimal()) {
            (Ok(windows), Ok(minimal)) => {
                for (event, window) in windows.iter().enumerate() {
                    prop_assert_eq!(window.latest, minimal.most(0, event));
                    prop_assert_eq!(window.earliest, minimal.most(event, 0).map(|way| -way));
                }
            }
            (windows, minimal) => prop_assert!(windows.is_err() && minimal.is_err()),
        }
    }
}
