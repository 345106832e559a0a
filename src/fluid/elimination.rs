//! A few linear equations solved at once, on the stack: Gaussian elimination with partial pivoting.
//!
//! Takes a matrix and a right-hand side of at most `SIZE` rows, gives the solution in place of the right-hand side.

/// Solves the first `n` rows. False, and nonsense in `right`, where the matrix has no inverse.
pub(super) fn solve<const SIZE: usize>(matrix: &mut [[f64; SIZE]; SIZE], right: &mut [f64; SIZE], n: usize) -> bool {
    for column in 0..n {
        let mut pivot = column;
        for row in column + 1..n {
            if matrix[row][column].abs() > matrix[pivot][column].abs() {
                pivot = row;
            }
        }
        let biggest = matrix[pivot][column];
        if !biggest.is_finite() || biggest == 0.0 {
            return false;
        }
        matrix.swap(column, pivot);
        right.swap(column, pivot);
        for row in column + 1..n {
            let factor = matrix[row][column] / biggest;
            if factor != 0.0 {
                let (above, below) = matrix.split_at_mut(row);
                for (x, y) in below[0][column..n].iter_mut().zip(&above[column][column..n]) {
                    *x -= factor * y;
                }
                right[row] -= factor * right[column];
            }
        }
    }
    for row in (0..n).rev() {
        let mut sum = right[row];
        for column in row + 1..n {
            sum -= matrix[row][column] * right[column];
        }
        right[row] = sum / matrix[row][row];
    }
    right[..n].iter().all(|x| x.is_finite())
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIZE: usize = 5;

    #[test]
    fn a_system_with_a_zero_on_its_diagonal_is_solved() {
        let mut matrix = [[0.0; SIZE]; SIZE];
        matrix[0][..3].copy_from_slice(&[0.0, 2.0, 1.0]);
        matrix[1][..3].copy_from_slice(&[1.0, 1.0, 1.0]);
        matrix[2][..3].copy_from_slice(&[2.0, 0.0, -3.0]);
        let mut right = [0.0; SIZE];
        right[..3].copy_from_slice(&[7.0, 6.0, -7.0]);
        assert!(solve(&mut matrix, &mut right, 3));
        for (found, wanted) in right[..3].iter().zip([1.0, 2.0, 3.0]) {
            assert!((found - wanted).abs() < 1e-14);
        }
    }

    #[test]
    fn a_matrix_without_an_inverse_is_told() {
        let mut matrix = [[0.0; SIZE]; SIZE];
        matrix[0][..2].copy_from_slice(&[1.0, 2.0]);
        matrix[1][..2].copy_from_slice(&[2.0, 4.0]);
        assert!(!solve(&mut matrix, &mut [1.0; SIZE], 2));
    }
}
