//! A speed controller: the duty that a motor state needs, and what it draws from the pack.
//!
//! `D = (V_req + I·R)/V_b` and `I_b = (P_motor + I²·R)·1.01/V_b`; I motor current in A, R the controller's
//! resistance in Ω (two switches in series), `V_b` the loaded pack voltage in V, 1.01 the switching loss. A duty above 1 does not
//! exist. Valid from idle to full throttle, brakes aside. Source: ideal buck converter with conduction loss; the 1 % is judgement.

/// Switching loss on top of conduction (judgement).
pub const SWITCHING: f64 = 1.01;

/// One controller channel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Esc {
    /// Resistance in the motor current's path, Ω.
    pub resistance: f64,
}

impl Esc {
    /// Duty for a motor that needs `required_v` at `motor_a`, on a pack at `pack_v`; above 1 is infeasible.
    ///
    /// ```
    /// use propwright_engine::models::esc::Esc;
    /// let duty = Esc { resistance: 0.002 }.duty(11.0, 10.0, 22.04);
    /// assert!((duty - 0.5).abs() < 1e-12);
    /// ```
    pub fn duty(&self, required_v: f64, motor_a: f64, pack_v: f64) -> f64 {
        (required_v + motor_a * self.resistance) / pack_v
    }

    /// Power drawn from the pack for a motor that takes `motor_w` at `motor_a`, W.
    ///
    /// ```
    /// use propwright_engine::models::esc::Esc;
    /// // By hand: (300 + 20²·0.003)·1.01 = 304.2 W.
    /// assert!((Esc { resistance: 0.003 }.input_power(300.0, 20.0) - 304.212).abs() < 1e-9);
    /// ```
    pub fn input_power(&self, motor_w: f64, motor_a: f64) -> f64 {
        (motor_w + motor_a * motor_a * self.resistance) * SWITCHING
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn loss_is_conduction_and_switching() {
        // Computed by hand: (700 + 35²·0.002)·1.01 = 709.4745 W.
        let input = Esc { resistance: 0.002 }.input_power(700.0, 35.0);
        assert!((input - 709.4745).abs() < 1e-9);
    }
}
