"""The maker's plate with everything carried, and the target."""

from boxfit.car import Car
from boxfit.judge.claim import ClaimedPack
from boxfit.judge.finding import Finding
from boxfit.judge.weights import KILOGRAM_SLACK, SHARE_SLACK


def judge_limits(claim: ClaimedPack, car: Car) -> list[Finding]:
    """Axles and gross mass stay within the plate when all of the carried is aboard.

    Starts from the loads the layout tells, which are judged on their own, and adds by moments what the
    target leaves at home.
    """
    told = claim.weights
    if car.weighed is None or told.front_axle is None or told.rear_axle is None:
        return []
    aboard = car.target.aboard if car.target is not None else ()
    left_behind = [one for one in car.carried if one.name not in aboard]
    rear = told.rear_axle + sum(-one.mass * one.at[0] / car.wheelbase for one in left_behind)
    gross = told.front_axle + told.rear_axle + sum(one.mass for one in left_behind)
    plate = (
        ("axle-limit", "front axle", gross - rear, car.limits.front_axle),
        ("axle-limit", "rear axle", rear, car.limits.rear_axle),
        ("gross-limit", "whole car", gross, car.limits.gross),
    )
    return [
        Finding(code, place, f"{load:.2f} kg with everything carried, the plate allows {limit:g} kg", load)
        for code, place, load, limit in plate
        if limit is not None and load > limit + KILOGRAM_SLACK
    ]


def judge_target(claim: ClaimedPack, car: Car) -> list[Finding]:
    """`target_met` is told where the front share is within tolerance of the target, and only there."""
    share = claim.weights.front_share
    if car.target is None or share is None:
        return []
    off = abs(share - car.target.front_share) - car.target.tolerance
    if (off <= SHARE_SLACK and claim.target_met) or (off >= -SHARE_SLACK and not claim.target_met):
        return []
    told = "met" if claim.target_met else "missed"
    wanted = f"{car.target.front_share:g} give or take {car.target.tolerance:g}"
    return [Finding("target", "weights", f"told {told}, front share is {share:.4f}, wanted {wanted}", share)]
