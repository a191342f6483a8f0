#pragma once

namespace barwright::tune {

// Every unknown is a function of one normal number z, so that one sampler serves all of them.

/// Returns the share of a normal law below z, 0..1.
double normal_share(double z);
/// Returns z's place in a half-normal law of scale 1: 0 and above.
double half_normal(double z);
/// Returns z's place in Student's law of 4 degrees of freedom.
double student4(double z);
/// Returns the z whose place in that law is t.
double normal_of_student4(double t);
/// Returns log of Student's density of 4 degrees of freedom.
double log_student4_density(double t);
/// Returns the share of Student's law of 4 degrees of freedom above t.
double student4_above(double t);
/// Returns z's place in a law whose logarithm is normal.
double log_normal(double z, double median, double log_spread);

}  // namespace barwright::tune
