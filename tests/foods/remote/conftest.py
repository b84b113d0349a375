from __future__ import annotations

import pytest

from ...databases import empty_redis


@pytest.fixture
def redis_url() -> str:
    return empty_redis()
