//! A made row for measuring the page: `?bench=300x10` is 300 trees with 10 uprights each.

use cordonry::plan::Plan;
use cordonry::row::{
    GrowthUnit, Planted, Pose, Row, Shoot, ShootId, Toward, Tree, TreeId, Trellis,
};
use cordonry::units::{Deg, Mm};
use std::sync::Arc;

/// Trees and uprights a tree from the page's address.
pub fn asked(search: &str) -> Option<(u32, u32)> {
    let value = search
        .trim_start_matches('?')
        .split('&')
        .find_map(|pair| pair.strip_prefix("bench="))?;
    let (trees, uprights) = value.split_once('x')?;
    let (trees, uprights) = (trees.parse().ok()?, uprights.parse().ok()?);
    (trees > 0 && trees <= 2000 && uprights <= 50).then_some((trees, uprights))
}

fn shoot(id: u32, at: f64, pose: Pose, length: f64, diameter: f64) -> Shoot {
    Shoot {
        pose,
        units: vec![GrowthUnit::whole(1, length)],
        diameter,
        ..Shoot::bud(ShootId::found(id), (id > 0).then_some(ShootId::STEM), at)
    }
}

/// The plan of such a row, uneven by a fixed pattern: uprights 0.2 m apart, trees as far as that asks for.
pub fn plan(trees: u32, uprights: u32) -> Plan {
    let laid = Pose::Laid {
        toward: Toward::Right,
        rise: Deg::new(2.0),
    };
    let up = Pose::Upright {
        lean: Deg::default(),
    };
    let apart = 200.0 * f64::from(uprights.max(5));
    let stock = apart + 650.0;
    let row = (0..trees).map(|t| {
        let wobble = f64::from((t * 37 + 11) % 17) * 10.0;
        let mut shoots = vec![shoot(0, 0.0, laid, stock - wobble, 26.0)];
        let step = 195.0;
        for u in 0..uprights {
            let uneven = f64::from((t * 7 + u * 13) % 5) * 6.0;
            let at = 760.0 + step * f64::from(u) + uneven;
            let tall = 1400.0 + f64::from((t * 5 + u * 29) % 13) * 40.0;
            shoots.push(shoot(u + 1, at.min(stock - wobble), up, tall, 12.0));
        }
        Arc::new(Tree {
            id: TreeId(t + 1),
            foot: Mm::round(apart * f64::from(t)),
            planted: Planted {
                angle: Deg::new(45.0),
                toward: Toward::Right,
            },
            shoots,
            vigour: None,
            like: None,
            diseased: false,
            note: String::new(),
        })
    });
    let trees: Vec<_> = row.collect();
    let end = trees.last().map_or(0, |t| t.foot.0) + 2000;
    Plan::new(
        "Made for measuring",
        Row {
            leaf: 3,
            from: Mm(500),
            to: Mm(end),
            trellis: Trellis {
                posts: (0..=end / 7000).map(|i| Mm(i * 7000)).collect(),
                ..Trellis::default()
            },
            trees,
        },
    )
}
