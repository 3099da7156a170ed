//! Changes one thing in a JSON text: a number, a text, a value too many or too few, two values exchanged. The text stays JSON and
//! mostly stays a copy, so that what is read gets as far as the fold.

use serde_json::Value;

/// A small generator (xorshift64*, Vigna 2016); the fuzzer gives the seed, so a case comes again from its bytes.
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        self.0.wrapping_mul(0x2545_F491_4F6C_DD1D)
    }

    fn below(&mut self, n: usize) -> usize {
        (self.next() >> 33) as usize % n.max(1)
    }
}

/// `None` where it is no JSON, or nothing in it can be changed.
pub fn changed(text: &[u8], seed: u32) -> Option<Vec<u8>> {
    let mut whole: Value = serde_json::from_slice(text).ok()?;
    let mut dice = Dice(u64::from(seed) << 1 | 1);
    dice.next();
    for _ in 0..=dice.below(3) {
        let n = count(&whole);
        let mut at = dice.below(n);
        change(&mut whole, &mut at, &mut dice);
    }
    serde_json::to_vec(&whole).ok()
}

/// How many values there are, itself among them.
fn count(value: &Value) -> usize {
    1 + match value {
        Value::Array(all) => all.iter().map(count).sum(),
        Value::Object(all) => all.values().map(count).sum::<usize>(),
        _ => 0,
    }
}

fn change(value: &mut Value, at: &mut usize, dice: &mut Dice) -> bool {
    if *at == 0 {
        turn(value, dice);
        return true;
    }
    *at -= 1;
    match value {
        Value::Array(all) => all.iter_mut().any(|one| change(one, at, dice)),
        Value::Object(all) => all.values_mut().any(|one| change(one, at, dice)),
        _ => false,
    }
}

fn turn(value: &mut Value, dice: &mut Dice) {
    const EDGES: [i64; 12] =
        [0, 1, -1, 2, 7, 254, 255, 65_536, i32::MAX as i64, i64::MAX, i64::MIN, 9_007_199_254_740_993];
    const TEXTS: [&str; 6] = ["", "\u{0}", "a\u{301}", "=1+1", "<img src=x>", "\u{202e}abc"];
    match value {
        Value::Number(n) => {
            let old = n.as_i64().unwrap_or(0);
            let new = match dice.below(4) {
                0 => EDGES[dice.below(EDGES.len())],
                1 => old.wrapping_add(1),
                2 => old.wrapping_sub(1),
                _ => dice.below(20) as i64,
            };
            *value = new.into();
        }
        Value::String(text) => match dice.below(3) {
            0 => *text = TEXTS[dice.below(TEXTS.len())].to_owned(),
            1 => text.push('x'),
            _ => {
                text.pop();
            }
        },
        Value::Array(all) if !all.is_empty() => {
            let (a, b) = (dice.below(all.len()), dice.below(all.len()));
            match dice.below(4) {
                0 => all.swap(a, b),
                1 => {
                    all.remove(a);
                }
                2 => all.insert(b, all[a].clone()),
                _ => all[a] = vec![all[b].clone(), Value::from(dice.below(40))].into(),
            }
        }
        Value::Array(all) => all.push(0.into()),
        Value::Object(all) => {
            let keys: Vec<String> = all.keys().cloned().collect();
            if let Some(key) = keys.get(dice.below(keys.len())) {
                all.remove(key);
            }
        }
        Value::Bool(is) => *is = !*is,
        Value::Null => *value = 0.into(),
    }
}
