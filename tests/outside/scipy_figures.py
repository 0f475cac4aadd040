"""Prints figures computed by SciPy, one a line: name, arguments, value. Read by scipy_test.cpp."""
import math
import random

from scipy import optimize, stats

random.seed(20)


def show(name, value, *arguments):
    print(name, *(repr(float(a)) for a in arguments), repr(float(value)))


def student_factors():
    for _ in range(60):
        coverage, dof = random.uniform(0.5, 0.999), math.exp(random.uniform(0.0, 8.0))
        show("student", stats.t.ppf(0.5 + coverage / 2, dof), coverage, dof)
    for coverage in (0.6, 0.95, math.erf(math.sqrt(2)), 0.999):
        show("normal", stats.norm.ppf(0.5 + coverage / 2), coverage)


def tails():
    for _ in range(60):
        value, u, dof = random.uniform(36, 44), random.uniform(0.05, 1.0), math.exp(random.uniform(0.7, 7.0))
        outside = stats.t.cdf((38 - value) / u, dof) + stats.t.sf((42 - value) / u, dof)
        show("outside", outside, value, u, dof)


def welch_satterthwaite():
    for _ in range(30):
        a, b, m, n = random.uniform(0.1, 3), random.uniform(0.1, 3), random.randint(3, 30), random.randint(3, 30)
        # SciPy's Welch test of two samples works with the same degrees of freedom: read them back from its p-value.
        t = 1.7
        p = stats.ttest_ind_from_stats(t * math.hypot(a / math.sqrt(m), b / math.sqrt(n)), a, m, 0, b, n, equal_var=False).pvalue
        dof = optimize.brentq(lambda d: 2 * stats.t.sf(t, d) - p, 1e-3, 1e4, xtol=1e-12, rtol=1e-13)
        show("welch", dof, a / math.sqrt(m), b / math.sqrt(n), m - 1, n - 1)


def trapezoids():
    for _ in range(20):
        wide, narrow = random.uniform(1, 2), random.uniform(0.2, 1)
        shape = (wide - narrow) / (wide + narrow)
        spread = stats.trapezoid(0.5 - shape / 2, 0.5 + shape / 2, loc=-(wide + narrow), scale=2 * (wide + narrow))
        show("trapezoid", spread.ppf(0.975), wide, narrow)


def lines():
    for _ in range(20):
        slope, scatter = random.uniform(-1, 1), random.uniform(0.01, 0.5)
        y = [slope * x + random.gauss(0, scatter) for x in range(7)]
        fit = stats.linregress(range(7), y)
        show("line", fit.slope, *y)
        show("line_u", fit.stderr, *y)


student_factors()
tails()
welch_satterthwaite()
trapezoids()
lines()
