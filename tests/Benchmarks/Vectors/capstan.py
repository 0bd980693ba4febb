"""The plain capstan over many grades with numpy: what an engineer would otherwise write. Prints the best time of many runs, us."""
import sys
import time

import numpy as np

count = int(sys.argv[1])
random = np.random.default_rng(7)
friction = random.uniform(0.03, 0.3, count)
price = random.uniform(60, 500, count)
bend_rad, length_m, wobble, load_n, present_n = 5.93, 7.0, 0.05, 220.0, 700.0


def best_ten():
    effort_n = load_n * np.exp(friction * (bend_rad + wobble * length_m))
    saved_n = present_n - effort_n
    cost = np.where(saved_n > 0, price / saved_n, np.inf)
    ten = np.argpartition(cost, 10)[:10]
    return ten[np.argsort(cost[ten])]


best = float("inf")
until = time.perf_counter() + 2
while time.perf_counter() < until:
    begun = time.perf_counter()
    best_ten()
    best = min(best, time.perf_counter() - begun)
print(best * 1e6)
