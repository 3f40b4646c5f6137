//! Putting short lists in order, in little code.

/// Puts a short or nearly ordered list in order, what is equal staying as it was.
///
/// By insertion: for the few things that stand on a page the library's sort is no faster, and it
/// takes some kilobytes for every kind of thing.
pub fn order_short<T>(list: &mut [T], mut is_before: impl FnMut(&T, &T) -> bool) {
    for end in 1..list.len() {
        let mut place = end;
        while place > 0 && is_before(&list[place], &list[place - 1]) {
            list.swap(place, place - 1);
            place -= 1;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_orders_as_the_library_does() {
        let mut seed = 7_u32;
        for length in 0..40 {
            let mut random = || {
                seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                seed >> 29
            };
            let list: Vec<(u32, u32)> = (0..length).map(|index| (random(), index)).collect();
            let (mut ours, mut theirs) = (list.clone(), list);
            order_short(&mut ours, |a, b| a.0 < b.0);
            theirs.sort_by_key(|it| it.0);
            assert_eq!(ours, theirs);
        }
    }
}
