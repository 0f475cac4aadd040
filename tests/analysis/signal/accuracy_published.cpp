#include "tests/analysis/signal/accuracy_study.hpp"

// The root mean squares of the table of docs/accuracy.md, in its order; accuracy_table prints both.

namespace zeroline::signal::analytic {

const std::vector<Published>& published_rows()
{
    static const std::vector<Published> kRows{
        {0.012, 0.016, 0.794, 0.224, 0.8},    // exponential, 100 Hz
        {0.012, 0.023, 0.402, 0.266, 0.2},    // ramp, 100 Hz
        {0.012, 0.021, 0.443, 0.219, 0.6},    // second-order, 100 Hz
        {0.008, 0.012, 0.175, 0.185, 0.5},    // exponential, 250 Hz
        {0.008, 0.012, 0.411, 0.253, 0.2},    // ramp, 250 Hz
        {0.008, 0.012, 0.371, 0.196, 0.4},    // second-order, 250 Hz
        {0.004, 0.006, 0.171, 0.183, 0.4},    // exponential, 1000 Hz
        {0.004, 0.006, 0.390, 0.243, 0.2},    // ramp, 1000 Hz
        {0.004, 0.006, 0.365, 0.208, 0.3},    // second-order, 1000 Hz
        {0.012, 0.021, 0.607, 0.207, 0.6},    // other S-shaped edges of 80-150 ms, 100 Hz
        {0.011, 0.018, 4.244, 2.163, 3.9},    // 5-40 cmH2O, edges of 20-800 ms, 100 Hz
        {0.013, 0.019, 1.564, 0.612, 1.3},    // ringing of 25 %, 100 Hz
        {0.012, 0.019, 1.541, 0.559, 2.1},    // residual of 3 cmH2O, 100 Hz
        {0.011, 0.195, 20.522, 14.196, 32.5}, // oscillation, 100 Hz
        {0.013, 0.019, 1.874, 0.691, 3.9},    // 12 spikes, 100 Hz
        {0.012, 0.000, 1.254, 0.593, 2.1},    // no pause, 100 Hz
        {0.023, 0.044, 1.103, 0.452, 1.7},    // phases of 0.5 s, 100 Hz
        {0.008, 0.012, 0.553, 0.213, 0.4},    // other S-shaped edges of 80-150 ms, 250 Hz
        {0.007, 0.013, 4.143, 1.572, 1.5},    // 5-40 cmH2O, edges of 20-800 ms, 250 Hz
        {0.008, 0.013, 1.150, 0.514, 0.7},    // ringing of 25 %, 250 Hz
        {0.008, 0.013, 0.900, 0.505, 0.9},    // residual of 3 cmH2O, 250 Hz
        {0.009, 0.140, 16.958, 12.472, 25.8}, // oscillation, 250 Hz
        {0.008, 0.013, 1.084, 0.512, 1.0},    // 12 spikes, 250 Hz
        {0.008, 0.000, 0.894, 0.496, 0.8},    // no pause, 250 Hz
        {0.014, 0.026, 0.834, 0.353, 1.0},    // phases of 0.5 s, 250 Hz
        {0.004, 0.006, 0.487, 0.206, 0.3},    // other S-shaped edges of 80-150 ms, 1000 Hz
        {0.004, 0.009, 3.915, 1.966, 1.5},    // 5-40 cmH2O, edges of 20-800 ms, 1000 Hz
        {0.004, 0.008, 1.013, 0.361, 0.5},    // ringing of 25 %, 1000 Hz
        {0.004, 0.007, 0.839, 0.340, 0.7},    // residual of 3 cmH2O, 1000 Hz
        {0.007, 0.105, 16.315, 12.428, 22.1}, // oscillation, 1000 Hz
        {0.004, 0.007, 0.920, 0.374, 0.7},    // 12 spikes, 1000 Hz
        {0.004, 0.000, 0.961, 0.298, 0.6},    // no pause, 1000 Hz
        {0.007, 0.013, 0.620, 0.294, 0.8},    // phases of 0.5 s, 1000 Hz
    };
    return kRows;
}

} // namespace zeroline::signal::analytic
